import type { Edges, Rectangle } from '../geometry/shapes.ts';
import type { Configuration } from '../rules/configuration.ts';
import type { Finding } from '../rules/finding.ts';
import { identityOf, isCoveredBy } from '../rules/finding.ts';
import { identityOfLimit, type ActiveLimit } from '../rules/active-limit.ts';
import { foundLength } from '../people/length-spans.ts';
import { checkScene, isBroken } from '../rules/report.ts';
import type { Scene } from '../rules/scene.ts';
import { withCrop } from '../rules/scene.ts';
import { levelFrame } from './levelling.ts';
import { placedCrops } from './placing.ts';
import type { SearchAnswer } from './nearest.ts';
import { NearestSearch } from './nearest.ts';
import type { SearchOptions } from './options.ts';
import { titleOf } from './titles.ts';

export const FIX_KINDS = ['nearest', 'tighter', 'wider'] as const;
export type FixKind = (typeof FIX_KINDS)[number];

/** A hint is worth one answer. */
const NEAREST: readonly FixKind[] = ['nearest'];

/** A crop that removes a finding and adds none at warning or above. */
export interface Fix {
  /** What it does, for a photographer. */
  readonly title: string;
  /** As the manifest writes it. */
  readonly crop: Rectangle;
  /** Where the picture is turned too: the new `straighten`. */
  readonly straighten?: number;
  readonly kind: FixKind;
}

/**
 * Up to three checked fixes for each finding: the nearest crop, a tighter one and a wider one. A finding that no crop
 * can remove without adding another has none.
 */
export function fixesFor(
  scene: Scene,
  configuration: Configuration,
  findings: readonly Finding[],
  options: SearchOptions = {},
): Map<Finding, Fix[]> {
  const workshop = new Workshop(scene, configuration, options);
  return new Map(findings.map((finding) => [finding, workshop.fixesOf(finding)]));
}

class Workshop {
  private readonly scene: Scene;
  private readonly configuration: Configuration;
  private readonly options: SearchOptions;
  private readonly search: NearestSearch;
  /** What the present crop is blamed for, by identity. */
  private readonly present: ReadonlySet<string>;
  private readonly pressing: ReadonlySet<string>;
  /** Answers that meet every rule, shared by all findings. */
  private readonly clean = new Map<FixKind, SearchAnswer | undefined>();
  /** What is found at the crops that were looked at, by their edges: several findings share their fixes. */
  private readonly checked = new Map<string, readonly Finding[]>();

  constructor(scene: Scene, configuration: Configuration, options: SearchOptions) {
    this.scene = scene;
    this.configuration = configuration;
    this.options = options;
    this.search = new NearestSearch(scene, configuration);
    const findings = checkScene(scene, configuration);
    this.present = new Set(findings.map(identityOf));
    this.pressing = new Set(findings.filter((finding) => this.isPressing(finding)).map(identityOf));
  }

  fixesOf(finding: Finding): Fix[] {
    if (!this.present.has(identityOf(finding))) return [];
    if (finding.rule === 'tilt') return this.levelling();
    if (finding.rule === 'placement') {
      const placed = this.placing(finding);
      if (placed) return [placed];
    }
    const fixes: Fix[] = [];
    for (const kind of finding.severity === 'info' ? NEAREST : FIX_KINDS) {
      const answer = this.answerFor(finding, kind);
      if (!answer || fixes.some(({ crop }) => isSame(crop, answer.crop))) continue;
      const isClean = this.findingsAt(answer.edges).every((other) => !this.isPressing(other));
      fixes.push({ title: titleOf(this.scene, answer.edges, kind, isClean), crop: answer.crop, kind });
    }
    return fixes;
  }

  /** No crop levels a picture: it is turned and cropped in one step. */
  private levelling(): Fix[] {
    const levelled = levelFrame(this.scene, this.configuration, this.options);
    if (!levelled) return [];
    const { crop, straighten, title, scene } = levelled;
    const isFine = checkScene(scene, this.configuration).every((finding) => this.isKnown(finding));
    return isFine ? [{ title, crop, straighten, kind: 'nearest' }] : [];
  }

  /** The subject brought to its place by moving the crop alone, where nothing new is said of that. */
  private placing(finding: Finding): Fix | undefined {
    const placed = placedCrops(this.scene).find(({ edges }) => {
      const after = this.findingsAt(edges).map(identityOf);
      return !after.includes(identityOf(finding)) && after.every((identity) => this.present.has(identity));
    });
    return placed && { title: placed.title, crop: placed.crop, kind: 'nearest' };
  }

  /** The crop of that kind that meets every rule; where there is none, one that mends this finding and breaks no more. */
  private answerFor(finding: Finding, kind: FixKind): SearchAnswer | undefined {
    if (finding.severity !== 'info') {
      const shared = this.cleanAnswer(kind);
      if (shared && this.mends(finding, shared.edges)) return shared;
    }
    const own = this.ownAnswer(finding, kind);
    return own && this.mends(finding, own.edges) ? own : undefined;
  }

  private cleanAnswer(kind: FixKind): SearchAnswer | undefined {
    if (!this.clean.has(kind)) {
      this.clean.set(kind, this.keepingLength(kind) ?? this.search.answer(inDirection(this.options, kind)));
    }
    return this.clean.get(kind);
  }

  /** The nearest crop of the present length, if it is clean: another length is only looked for where none is. */
  private keepingLength(kind: FixKind): SearchAnswer | undefined {
    const { tallest, crop } = this.scene;
    if (kind !== 'nearest' || !tallest) return undefined;
    const answer = this.search.answer({ tightest: foundLength(tallest, crop), ...this.options });
    const isClean = answer && this.findingsAt(answer.edges).every((finding) => !this.isPressing(finding));
    return isClean ? answer : undefined;
  }

  private ownAnswer(finding: Finding, kind: FixKind): SearchAnswer | undefined {
    const identity = identityOf(finding);
    const only = (active: ActiveLimit) => {
      if (identityOfLimit(active) === identity) return true;
      return active.rule.id !== finding.rule || finding.severity !== 'info'
        ? !isBroken(active.limit, this.scene.crop)
        : false;
    };
    return this.searchFor(finding).answer({ ...inDirection(this.options, kind), only });
  }

  /** A hint is searched for like a warning when it is the one to be mended. */
  private searchFor(finding: Finding): NearestSearch {
    const own = this.configuration.get(finding.rule);
    if (!own || finding.severity !== 'info') return this.search;
    const asHard = new Map(this.configuration).set(finding.rule, { ...own, severity: 'warning' });
    return new NearestSearch(this.scene, asHard);
  }

  private mends(finding: Finding, edges: Edges): boolean {
    const after = this.findingsAt(edges);
    const identity = identityOf(finding);
    if (after.some((other) => identityOf(other) === identity)) return false;
    return after.every((other) => this.isKnown(other));
  }

  /** A finding that does not press, or that the present crop has too. */
  private isKnown(finding: Finding): boolean {
    return !this.isPressing(finding) || this.pressing.has(identityOf(finding));
  }

  private findingsAt(edges: Edges): readonly Finding[] {
    const { left, top, right, bottom } = edges;
    const place = `${left} ${top} ${right} ${bottom}`;
    let findings = this.checked.get(place);
    if (!findings) {
      findings = checkScene(withCrop(this.scene, edges), this.configuration);
      this.checked.set(place, findings);
    }
    return findings;
  }

  private isPressing(finding: Finding): boolean {
    const { allow = [] } = this.options;
    return finding.severity !== 'info' && !allow.some((key) => isCoveredBy(key, finding));
  }
}

function inDirection(options: SearchOptions, kind: FixKind): SearchOptions {
  return kind === 'nearest' ? options : { ...options, direction: kind };
}

function isSame(a: Rectangle, b: Rectangle): boolean {
  return a.x === b.x && a.y === b.y && a.w === b.w && a.h === b.h;
}
