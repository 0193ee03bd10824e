import { effectiveEdges } from '../geometry/crop.ts';
import type { Rectangle } from '../geometry/shapes.ts';
import type { Length } from '../people/lengths.ts';
import { rungOf, tighterThan } from '../people/lengths.ts';
import { foundLength } from '../people/length-spans.ts';
import type { Finding } from '../rules/finding.ts';
import { identityOf, isCoveredBy } from '../rules/finding.ts';
import { RULES } from '../rules/index.ts';
import { identityOfLimit, type ActiveLimit } from '../rules/active-limit.ts';
import { checkScene, isBroken } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';
import { withCrop } from '../rules/scene.ts';
import { POSSIBLE_SHARE } from '../rules/weights.ts';
import { nearestCrop, reasonWithoutCrop, type SearchAnswer, type SearchOptions } from '../search/index.ts';
import type { Configuration } from '../rules/configuration.ts';
import { worseThan } from './no-worse.ts';

export interface RepairQuestion {
  readonly scene: Scene;
  readonly configuration: Configuration;
  /** Keys of the frame's `allow`. */
  readonly allow: readonly string[];
  /** Repair what these rules say; nothing else may get worse. Absent: what all say. */
  readonly rules: readonly string[] | undefined;
  readonly anyLength: boolean;
}

/** What a search made of a frame. */
export interface Repair {
  /** The crop to write; absent when none is better than the present one. */
  readonly crop?: Rectangle;
  /** What is left to say of the frame, after the repair. */
  readonly remaining: readonly Finding[];
  /** Why the rest cannot be met, by what it is about. */
  readonly reasons: ReadonlyMap<string, string>;
  /** A clean crop exists, but it comes down more than one length. */
  readonly isCleanCloser: boolean;
}

/**
 * The best crop for a frame that presses: the nearest clean one of the present length, else of one length tighter (or any,
 * where that is asked or a face is cut; or as tight as the frame asks); where none is clean, the least broken one that
 * comes no tighter and in which nothing is new or worse. So a second repair finds nothing better.
 */
export function repair(question: RepairQuestion): Repair {
  const { scene } = question;
  const before = pressingIn(scene, question);
  // A picture whose faces are cut is none: its length is not worth keeping.
  const anyLength = question.anyLength || before.some(({ severity }) => severity === 'error');
  const attempt = onceEach((tightest: Length | undefined) => search(question, tightest));
  const attempts = lengthsToTry(scene, anyLength).map(attempt);
  const clean = attempts.find((found) => found !== undefined && isClean(found, before, question));
  if (clean) return { crop: clean.answer.crop, remaining: clean.after, reasons: new Map(), isCleanCloser: false };
  const kept = anyLength ? lengthsToTry(scene, anyLength).at(-1) : keptLength(scene);
  const last = attempt(kept);
  const closer = anyLength ? undefined : attempt(undefined);
  const isCleanCloser = closer !== undefined && isClean(closer, before, question);
  if (!last)
    return { remaining: before, reasons: reasonsWithoutCrop({ ...question, anyLength }, before), isCleanCloser };
  const better = withNothingWorse(last, before, question, kept);
  return better
    ? { crop: better.answer.crop, remaining: better.after, reasons: reasonsOf(better.answer), isCleanCloser }
    : { remaining: before, reasons: reasonsToStay(last, before), isCleanCloser };
}

/**
 * The least broken crop if it breaks less and nothing is new or worse in it; else the least broken of those that keep
 * what is whole, and mend what would get worse.
 */
function withNothingWorse(
  last: Attempt,
  before: readonly Finding[],
  question: RepairQuestion,
  tightest: Length | undefined,
): Attempt | undefined {
  const mayStay = new Set(before.map(identityOf));
  let found: Attempt | undefined = last;
  while (found) {
    const worse = worseThan(before, found.after);
    if (worse.length === 0) return isBetter(found, before, question) ? found : undefined;
    const known = worse.filter((finding) => mayStay.delete(identityOf(finding)));
    if (found !== last && known.length === 0) return undefined;
    const keep = (limit: ActiveLimit): boolean => !mayStay.has(identityOfLimit(limit));
    found = search(question, tightest, keep);
  }
  return undefined;
}

/** What stands in the way of each finding when the frame stays as it is. */
function reasonsToStay({ answer, after }: Attempt, before: readonly Finding[]): Map<string, string> {
  const reasons = reasonsOf(answer);
  const worse = new Set(worseThan(before, after).map(placeWords));
  const usual =
    worse.size > 0
      ? `the nearest crop that mends it is worse in ${[...worse].join(' and ')}`
      : 'no crop mends it that breaks less in all';
  return new Map(before.map((finding) => [identityOf(finding), reasons.get(identityOf(finding)) ?? usual]));
}

/** "edge-clearance (person 1, left edge)". */
function placeWords({ rule, person, edge }: Finding): string {
  const place = [
    ...(person === undefined ? [] : [`person ${person}`]),
    ...(edge === undefined ? [] : [`${edge} edge`]),
  ];
  return place.length === 0 ? rule : `${rule} (${place.join(', ')})`;
}

interface Attempt {
  readonly answer: SearchAnswer;
  /** Errors and warnings that the written crop would have. */
  readonly after: readonly Finding[];
}

/** A search is dear, and several ways lead to the same one. */
function onceEach<Question, Answer>(ask: (question: Question) => Answer): (question: Question) => Answer {
  const known = new Map<Question, Answer>();
  return (question) => {
    if (!known.has(question)) known.set(question, ask(question));
    return known.get(question) as Answer;
  };
}

function search(
  question: RepairQuestion,
  tightest: Length | undefined,
  keep?: SearchOptions['keep'],
): Attempt | undefined {
  const { scene, configuration } = question;
  const answer = nearestCrop(scene, configuration, { ...searchOptions(question, tightest), ...(keep && { keep }) });
  if (!answer) return undefined;
  const edges = effectiveEdges(answer.crop, scene.photo, scene.degrees);
  return { answer, after: pressingIn(withCrop(scene, edges), question) };
}

function searchOptions({ scene, allow, rules }: RepairQuestion, tightest: Length | undefined): SearchOptions {
  const isAsked = ({ rule, limit }: ActiveLimit): boolean =>
    rules === undefined || rules.includes(rule.id) || !isBroken(limit, scene.crop);
  return { allow, ...(tightest && { tightest }), ...(rules && { only: isAsked }) };
}

/**
 * How tight each attempt may come; undefined for as tight as it takes. What the frame asks for comes first, then what
 * it shows: a length is given up only where no crop of it is clean.
 */
function lengthsToTry(scene: Scene, anyLength: boolean): (Length | undefined)[] {
  const present = presentLength(scene);
  const usual = anyLength || !present ? undefined : (tighterThan(present) ?? present);
  return [...new Set([...(scene.askedLength ? [scene.askedLength] : []), ...(present ? [present] : []), usual])];
}

/** As tight as a crop comes that is not clean: no tighter than it is, or than the frame asks. */
function keptLength(scene: Scene): Length | undefined {
  const present = presentLength(scene);
  const asked = scene.askedLength;
  return present && asked && rungOf(asked) > rungOf(present) ? asked : present;
}

function presentLength(scene: Scene): Length | undefined {
  return scene.tallest && foundLength(scene.tallest, scene.crop);
}

function pressingIn(scene: Scene, { configuration, allow }: RepairQuestion): Finding[] {
  return checkScene(scene, configuration).filter(
    (finding) => finding.severity !== 'info' && !allow.some((key) => isCoveredBy(key, finding)),
  );
}

function isClean({ after }: Attempt, before: readonly Finding[], { rules }: RepairQuestion): boolean {
  if (rules === undefined) return after.length === 0;
  return after.every(({ rule }) => !rules.includes(rule)) && worseThan(before, after).length === 0;
}

/** Less is broken of what is to be mended. */
function isBetter({ after }: Attempt, before: readonly Finding[], { rules }: RepairQuestion): boolean {
  const own = ({ rule }: Finding): boolean => rules === undefined || rules.includes(rule);
  return weightOf(after.filter(own)) < weightOf(before.filter(own));
}

function weightOf(findings: readonly Finding[]): number {
  return findings.reduce((sum, finding) => {
    const weight = RULES.find(({ id }) => id === finding.rule)?.weight ?? 0;
    return sum + weight * (finding.possible === true ? POSSIBLE_SHARE : 1);
  }, 0);
}

function reasonsWithoutCrop(question: RepairQuestion, findings: readonly Finding[]): Map<string, string> {
  const { scene, configuration, anyLength } = question;
  const tightest = anyLength ? undefined : keptLength(scene);
  const reason = reasonWithoutCrop(scene, configuration, searchOptions(question, tightest));
  return new Map(reason === undefined ? [] : findings.map((finding) => [identityOf(finding), reason]));
}

function reasonsOf({ broken, bounded }: SearchAnswer): Map<string, string> {
  const reasons = new Map<string, string>();
  const ending = bounded ? ' (The search was cut short; there may be a better crop.)' : '';
  for (const place of broken) {
    reasons.set(identityOf(place), `${place.reason()}${ending}`);
  }
  return reasons;
}
