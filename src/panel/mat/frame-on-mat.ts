import { effectiveEdges, roundCrop } from '../../geometry/crop.ts';
import type { Edges, Rectangle } from '../../geometry/shapes.ts';
import { rectangleOf } from '../../geometry/shapes.ts';
import type { Configuration } from '../../rules/configuration.ts';
import { isCoveredBy, type Finding } from '../../rules/finding.ts';
import { checkScene } from '../../rules/report.ts';
import { sceneOf, withCrop, type Scene } from '../../rules/scene.ts';
import type { MatFrame } from '../messages.ts';

/** The frame that lies on the mat, with the crop as it is being drawn. */
export class FrameOnMat {
  readonly frame: MatFrame;
  readonly configuration: Configuration;
  /** The crop that the text has. */
  readonly was: Scene;
  scene: Scene;

  constructor(frame: MatFrame) {
    this.frame = frame;
    this.configuration = new Map(frame.configuration);
    this.was = sceneOf(frame.input);
    this.scene = this.was;
  }

  /** The crop as the manifest would have it. */
  get written(): Rectangle {
    return roundCrop(rectangleOf(this.scene.crop, this.scene.photo));
  }

  move(edges: Edges): void {
    this.scene = withCrop(this.scene, edges);
  }

  /** What the rules say of the crop as it would be written, by the same code as the command line. */
  findings(): Finding[] {
    if (!this.frame.isMeasured) return [];
    const { photo, degrees } = this.scene;
    const scene = withCrop(this.scene, effectiveEdges(this.written, photo, degrees));
    const found = checkScene(scene, this.configuration).filter(
      (finding) => !this.frame.allow.some((key) => isCoveredBy(key, finding)),
    );
    return this.frame.isFinal ? found.map((finding) => ({ ...finding, severity: 'info' })) : found;
  }
}
