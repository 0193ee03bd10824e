import { effectiveEdges, roundCrop } from '../../geometry/crop.ts';
import { cropAfterTurn, roundDegrees } from '../../geometry/level.ts';
import { orientationOf, shapeOf } from '../../geometry/ratio.ts';
import type { Edges, Rectangle } from '../../geometry/shapes.ts';
import { heightOf, rectangleOf, widthOf } from '../../geometry/shapes.ts';
import { correctPeople, type Correction } from '../../people/correct.ts';
import type { Configuration } from '../../rules/configuration.ts';
import { isCoveredBy, type Finding } from '../../rules/finding.ts';
import { checkScene } from '../../rules/report.ts';
import { sceneOf, withCrop, type Scene } from '../../rules/scene.ts';
import type { MatFrame } from '../messages.ts';

/** What is told of a frame; a person, joint or edge only where a rule about crops says it. */
export type FoundOnMat = Pick<Finding, 'rule' | 'severity' | 'message' | 'edge' | 'joint' | 'person' | 'related'> & {
  /** It is about the crop of this output, and another crop lies on the mat. */
  readonly output?: string;
};

/** The frame that lies on the mat, with crop, turning and people as they are being changed. */
export class FrameOnMat {
  readonly frame: MatFrame;
  readonly configuration: Configuration;
  /** What the text and the people file have. */
  readonly was: Scene;
  scene: Scene;
  /** Where the turning that is under way began: turning to and fro loses nothing. */
  #turnedFrom: Scene | undefined;
  #keptShape: number | undefined;

  /** @param before what lay here until now: the same frame keeps its shape, however its numbers were rounded */
  constructor(frame: MatFrame, before?: FrameOnMat) {
    this.frame = frame;
    this.configuration = new Map(frame.configuration);
    this.was = sceneOf(frame.input);
    this.scene = this.was;
    const isSameCrop = before?.frame.name === frame.name && before.frame.output === frame.output;
    if (isSameCrop && isSame(before.written, this.written)) this.#keptShape = before.#keptShape;
  }

  /** The crop as the manifest would have it. */
  get written(): Rectangle {
    return writtenAs(this.scene);
  }

  /** Whether the manifest would say something else. */
  get isChanged(): boolean {
    if (this.scene.degrees !== this.was.degrees) return true;
    return this.scene.crop !== this.was.crop && !isSame(this.written, writtenAs(this.was));
  }

  get isTurning(): boolean {
    return this.#turnedFrom !== undefined;
  }

  /** Width over height that a drag keeps: what was asked for, else what the crop has. */
  get keptShape(): number {
    const { shape, crop } = this.scene;
    return (this.#keptShape ??= shape ?? widthOf(crop) / heightOf(crop));
  }

  /** @param keepsShape a crop of another shape is no longer what is kept */
  move(edges: Edges, keepsShape: boolean): void {
    if (!keepsShape) this.#keptShape = undefined;
    this.#turnedFrom = undefined;
    this.scene = withCrop({ ...this.scene, shape: this.#shapeFor(edges) }, edges);
  }

  turn(to: number): void {
    const from = (this.#turnedFrom ??= this.scene);
    const degrees = roundDegrees(to);
    const crop = degrees === from.degrees ? from.crop : cropAfterTurn(from.crop, from.photo, from.degrees, degrees);
    this.scene = sceneOf({ ...from, degrees, crop });
  }

  /** What was turned is let go. */
  endTurn(): void {
    this.#turnedFrom = undefined;
  }

  correct(correction: Correction): void {
    const people = correctPeople(this.was.people, correction);
    if (people) this.scene = sceneOf({ ...this.scene, people });
  }

  /** What the rules say of the crop as it would be written, by the same code as the command line. */
  findings(): FoundOnMat[] {
    return [...this.findingsAt(this.written), ...this.frame.aboutFiles, ...this.frame.aboutOutputs];
  }

  /** What the rules say of another crop of the picture as it is turned now. */
  findingsAt(crop: Rectangle): Finding[] {
    const scene = withCrop(this.scene, effectiveEdges(crop, this.scene.photo, this.scene.degrees));
    const found = checkScene(scene, this.configuration).filter(
      (finding) => !this.frame.allow.some((key) => isCoveredBy(key, finding)),
    );
    return this.frame.isFinal ? found.map((finding) => ({ ...finding, severity: 'info' as const })) : found;
  }

  /** A crop that was chosen rather than dragged, in the picture turned by these degrees. */
  take(crop: Rectangle, degrees: number): void {
    this.#keptShape = undefined;
    this.#turnedFrom = undefined;
    const edges = effectiveEdges(crop, this.scene.photo, degrees);
    this.scene = sceneOf({ ...this.scene, degrees, crop: edges, shape: this.#shapeFor(edges) });
  }

  /** A paper is held as the crop is held, as session/ has it for the text. */
  #shapeFor(edges: Edges): number | undefined {
    const { shape, photo } = this.scene;
    if (shape === undefined || !this.frame.isPaperShape) return shape;
    return shapeOf({ a: shape, b: 1 }, orientationOf(edges, photo.width > photo.height ? 'lying' : 'upright'));
  }
}

function writtenAs({ crop, photo }: Scene): Rectangle {
  return roundCrop(rectangleOf(crop, photo));
}

function isSame(first: Rectangle, second: Rectangle): boolean {
  return first.x === second.x && first.y === second.y && first.w === second.w && first.h === second.h;
}
