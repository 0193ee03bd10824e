import type { Diagnostic, TextDocument } from 'vscode';
import { CodeAction, CodeActionKind } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';
import { MEASURE_TITLE } from '../panel/messages.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { fixesOfFrame } from '../session/frame-fixes.ts';
import { measuredScene } from '../session/frame-scene.ts';
import { lengthChange } from '../session/length-change.ts';
import { allowKeyOf } from '../rules/finding.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import { SOURCE } from './diagnostics.ts';
import { canAllow, frameEdit } from './frame-edit.ts';
import { tellingCosts } from './length-costs.ts';
import type { OpenManifest } from './open-manifest.ts';
import { rangeIn, workspaceEdit } from './places.ts';
import { plainLine } from './plain-text.ts';
import { REASON } from './select-reason.ts';

/** For each finding that the editor asks about: its fixes, best first, then the ways to live with it. */
export function findingActions(
  manifest: OpenManifest,
  checks: readonly FrameCheck[],
  diagnostics: readonly Diagnostic[],
): CodeAction[] {
  const own = diagnostics.filter(({ source }) => source === SOURCE);
  if (own.length === 0) return [];
  const spelling = own.flatMap((diagnostic) => spellingActions(manifest, diagnostic));
  const found = checks.flatMap((check) => {
    const asked = own.flatMap((diagnostic) => {
      const finding = check.findings.find((each) => isSame(manifest.document, each, diagnostic));
      return finding ? [{ diagnostic, finding }] : [];
    });
    return asked.length === 0 ? [] : actionsOf(manifest, check, asked);
  });
  return [...spelling, ...found];
}

interface Asked {
  readonly diagnostic: Diagnostic;
  readonly finding: LocatedFinding;
}

function actionsOf(manifest: OpenManifest, check: FrameCheck, asked: readonly Asked[]): CodeAction[] {
  const fixed = fixesOfFrame(
    manifest.session,
    check,
    asked.map(({ finding }) => finding),
  );
  const fixes = asked.flatMap(({ diagnostic, finding }) => {
    const place = check.findings.indexOf(finding);
    return fixActions(manifest, check.frame, fixed.findings[place]!, diagnostic);
  });
  const others = asked.flatMap(({ diagnostic, finding }) => [
    ...allowActions(manifest, check.frame, finding, diagnostic),
    ...measureActions(manifest, finding, diagnostic),
  ]);
  return [...withoutTwins(fixes), ...others];
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
    if (length) action.command = tellingCosts({ uri: manifest.document.uri, fixed: [{ frame, length }] });
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
