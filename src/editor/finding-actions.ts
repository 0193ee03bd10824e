import type { Diagnostic, Range, TextDocument } from 'vscode';
import { CodeAction, CodeActionKind } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';
import { MEASURE_TITLE } from '../panel/messages.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { fixesOfFrame } from '../session/frame-fixes.ts';
import { measuredScene } from '../session/frame-scene.ts';
import { peopleLeftOut } from '../session/left-out.ts';
import { lengthChange } from '../session/length-change.ts';
import { allowKeyOf } from '../rules/finding.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import { SOURCE } from './diagnostics.ts';
import { canAllow, frameEdit } from './frame-edit.ts';
import { tellingCosts, type PictureChange } from './picture-costs.ts';
import type { OpenManifest } from './open-manifest.ts';
import { rangeIn, workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';
import { REASON } from './select-reason.ts';

/** What can be done about findings: what mends them, best first, and the ways to live with them. */
export interface FindingActions {
  readonly mending: readonly CodeAction[];
  readonly allowing: readonly CodeAction[];
}

/**
 * The findings that somebody asks about: those of exactly this place; at a mere cursor those of the least stretch around
 * it; for a selection all that it touches.
 */
export function askedAbout(diagnostics: readonly Diagnostic[], range: Range): readonly Diagnostic[] {
  const own = diagnostics.filter(({ source }) => source === SOURCE);
  const exact = own.filter((diagnostic) => diagnostic.range.isEqual(range));
  if (exact.length > 0) return exact;
  if (!range.isEmpty) return own;
  return own.filter((diagnostic) => !own.some((other) => isWithin(other.range, diagnostic.range)));
}

/** For each finding that is asked about. */
export function findingActions(
  manifest: OpenManifest,
  checks: readonly FrameCheck[],
  asked: readonly Diagnostic[],
): FindingActions {
  const spelling = asked.flatMap((diagnostic) => spellingActions(manifest, diagnostic));
  const found = checks.flatMap((check) => {
    const ofFrame = asked.flatMap((diagnostic) => {
      const finding = check.findings.find((each) => isSame(manifest.document, each, diagnostic));
      return finding ? [{ diagnostic, finding }] : [];
    });
    return ofFrame.length === 0 ? [] : [actionsOf(manifest, check, ofFrame)];
  });
  return {
    mending: [...spelling, ...found.flatMap(({ mending }) => mending)],
    allowing: found.flatMap(({ allowing }) => allowing),
  };
}

interface Asked {
  readonly diagnostic: Diagnostic;
  readonly finding: LocatedFinding;
}

function actionsOf(manifest: OpenManifest, check: FrameCheck, asked: readonly Asked[]): FindingActions {
  const fixed = fixesOfFrame(
    manifest.session,
    check,
    asked.map(({ finding }) => finding),
  );
  const fixes = asked.flatMap(({ diagnostic, finding }) => {
    const place = check.findings.indexOf(finding);
    return fixActions(manifest, check.frame, fixed.findings[place]!, diagnostic);
  });
  const measuring = asked.flatMap(({ diagnostic, finding }) => measureActions(manifest, finding, diagnostic));
  // One of each rule: more would bury what mends.
  const firsts = asked.filter(
    ({ finding }, place) => asked.findIndex((other) => other.finding.rule === finding.rule) === place,
  );
  return {
    mending: [...withoutTwins(fixes), ...measuring],
    allowing: firsts.flatMap(({ diagnostic, finding }) => allowActions(manifest, check.frame, finding, diagnostic)),
  };
}

function fixActions(
  manifest: OpenManifest,
  frame: Frame,
  { fixes = [] }: LocatedFinding,
  diagnostic: Diagnostic,
): CodeAction[] {
  const scene = fixes.length === 0 ? undefined : measuredScene(manifest.session, frame);
  return fixes.map(({ title, crop, straighten }, index) => {
    const change = { crop, ...(straighten !== undefined && { straighten }) };
    const action = new CodeAction(title, CodeActionKind.QuickFix);
    action.edit = frameEdit(manifest, frame, change);
    const length = scene && lengthChange(scene, crop, straighten);
    const leftOut = scene ? peopleLeftOut(scene, crop, straighten) : [];
    const picture: PictureChange = { frame, ...(length && { length }), ...(leftOut.length > 0 && { leftOut }) };
    action.command = tellingCosts({ uri: manifest.document.uri, fixed: [picture] });
    action.diagnostics = [diagnostic];
    action.isPreferred = index === 0;
    return action;
  });
}

/** One crop may mend several findings of a place: it is offered once. */
function withoutTwins(actions: readonly CodeAction[]): CodeAction[] {
  const byTitle = new Map<string, CodeAction>();
  for (const action of actions) {
    const twin = byTitle.get(action.title);
    if (twin) twin.diagnostics = [...(twin.diagnostics ?? []), ...(action.diagnostics ?? [])];
    else byTitle.set(action.title, action);
  }
  return [...byTitle.values()];
}

function allowActions(
  manifest: OpenManifest,
  frame: Frame,
  finding: LocatedFinding,
  diagnostic: Diagnostic,
): CodeAction[] {
  if (!canAllow(frame, finding.rule)) return [];
  const { document } = manifest;
  const key = allowKeyOf(finding);
  const action = new CodeAction(`Allow ${key} here, and say why`, CodeActionKind.QuickFix);
  action.edit = frameEdit(manifest, frame, { allow: { [key]: REASON } });
  action.command = { command: 'selvedge.selectReason', title: 'Say why', arguments: [document.uri, frame.index, key] };
  action.diagnostics = [diagnostic];
  return [action];
}

function measureActions({ document }: OpenManifest, { rule }: LocatedFinding, diagnostic: Diagnostic): CodeAction[] {
  if (rule !== 'not-measured' && rule !== 'stale-measure') return [];
  const action = new CodeAction(MEASURE_TITLE, CodeActionKind.QuickFix);
  action.command = { command: 'selvedge.measure', title: action.title, arguments: [document.uri] };
  action.diagnostics = [diagnostic];
  action.isPreferred = true;
  return [action];
}

/** A misspelt word, written as it was probably meant. */
function spellingActions({ document, session: { manifest } }: OpenManifest, diagnostic: Diagnostic): CodeAction[] {
  const problem = manifest.problems.find(
    ({ suggestion, range, message }) =>
      suggestion !== undefined &&
      rangeIn(document, range).isEqual(diagnostic.range) &&
      plainLine(message) === diagnostic.message,
  );
  if (problem?.suggestion === undefined) return [];
  const action = new CodeAction(`Write ${plainLine(problem.suggestion)}`, CodeActionKind.QuickFix);
  action.edit = workspaceEdit(document, [{ ...problem.range, text: problem.suggestion }]);
  action.diagnostics = [diagnostic];
  action.isPreferred = true;
  return [action];
}

function isSame(document: TextDocument, finding: LocatedFinding, { code, message, range }: Diagnostic): boolean {
  const rule = typeof code === 'object' ? code.value : code;
  return (
    finding.rule === rule && plainLine(finding.message) === message && rangeIn(document, finding.range).isEqual(range)
  );
}

/** Whether a stretch lies in another one and is smaller. */
function isWithin(inner: Range, outer: Range): boolean {
  return outer.contains(inner) && !outer.isEqual(inner);
}
