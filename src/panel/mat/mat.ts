import type { Point, Rectangle } from '../../geometry/shapes.ts';
import type { Correction } from '../../people/correct.ts';
import type { Scene } from '../../rules/scene.ts';
import type { FromMat, MatFrame, Switch, ToMat } from '../messages.ts';
import { CropChoice } from '../page/crop-choice.ts';
import { byId, painted } from '../page/elements.ts';
import { BestFixes } from './best-fixes.ts';
import { FindingsList } from './findings-list.ts';
import { FrameOnMat } from './frame-on-mat.ts';
import { addHandles } from './handles.ts';
import { Joints } from './joints.ts';
import { showLadder } from './ladder-column.ts';
import { LevelControl } from './level-control.ts';
import { marksOf } from './marks.ts';
import { MatNotice } from './notice.ts';
import { bodyMap } from './overlay.ts';
import { PeopleTools } from './people-tools.ts';
import { Stage } from './stage.ts';
import { Surface } from './surface.ts';
import type { View } from './view.ts';
import { offeredOutput, outputTitle, showCrop, showFrame } from './words.ts';

const NONE = new Map<string, never>();

/** Whether the crop that was asked for has come, or never will: what is still under way may be of another one. */
function isWaitOver(asked: string | undefined, { output, outputs }: MatFrame): boolean {
  return output === asked || (asked !== undefined && !outputs.some(({ id }) => id === asked));
}

function whyNotTurned({ isFinal, output }: MatFrame): string | undefined {
  if (isFinal) return 'The frame is approved as it is';
  // All crops of a frame are of the same turned picture.
  return output === undefined ? undefined : 'The picture is turned with its main crop';
}

/** The cutting mat: one photo, its crop, and what is found in it while the crop moves. */
export class Mat {
  readonly #send: (message: FromMat) => void;
  readonly #crop = byId('crop');
  readonly #overlay = byId('overlay');
  readonly #bodies = byId('bodies');
  readonly #marks = byId('marks');
  readonly stage: Stage;
  readonly #surface: Surface;
  readonly #level: LevelControl;
  readonly #joints: Joints;
  readonly #people: PeopleTools;
  readonly #findings: FindingsList;
  readonly #fixes: BestFixes;
  readonly #notice = new MatNotice();
  readonly #outputs: CropChoice;
  /** Another crop was asked for: until it is here, this one is not to be changed. */
  #awaited: { readonly output: string | undefined } | undefined;
  #on: FrameOnMat | undefined;
  /** Came while something was held. */
  #waiting: MatFrame | undefined;
  #isHeld = false;
  #drawn: { readonly figures: Scene['figures'] | undefined; readonly view: View } | undefined;
  #isDrawing = false;
  #switches: ReadonlySet<Switch> = new Set();

  constructor(send: (message: FromMat) => void) {
    this.#send = send;
    const view = (): Stage['view'] => this.stage.view;
    const redraw = (): void => {
      this.#draw();
    };
    this.stage = new Stage({
      redraw,
      lookClosely: (look) => {
        if (this.#on) send({ kind: 'look', revision: this.#on.frame.revision, ...look });
      },
    });
    this.#surface = new Surface(redraw);
    this.#level = new LevelControl(
      {
        view,
        turn: (degrees) => {
          this.#turn(degrees);
        },
        letGo: () => {
          this.letGo();
        },
      },
      this.#surface,
    );
    this.#people = new PeopleTools(this.#surface, view, {
      correct: (correction) => {
        this.#correct(correction);
      },
      takeBack: () => {
        send({ kind: 'take-back' });
      },
    });
    this.#joints = new Joints({
      view,
      move: (person, place, at) => {
        this.#hold();
        this.#on?.correct({ kind: 'place', person, place, at });
        this.#draw();
      },
      letGo: (person, place) => {
        const at = this.#on && this.#people.placeIn(this.#on.scene.people, person, place);
        this.#isHeld = false;
        if (at) this.#correct({ kind: 'place', person, place, at });
      },
      unplace: (person, place) => {
        this.#correct({ kind: 'unplace', person, place });
      },
    });
    this.#fixes = new BestFixes(redraw);
    this.#findings = new FindingsList({
      mend: ({ crop, straighten }) => {
        this.#write(crop, straighten);
      },
      allow: (key, reason) => {
        if (this.#on) send({ kind: 'allow', revision: this.#on.frame.revision, key, reason });
      },
      measure: () => {
        send({ kind: 'measure' });
      },
      cutFor: (output) => {
        this.#cutFor(output);
      },
    });
    this.#outputs = new CropChoice('output', (output) => {
      this.#cutFor(output);
    });
    byId('approve').addEventListener('click', () => {
      this.letGo();
      if (this.#on) send({ kind: 'approve', revision: this.#on.frame.revision, isFinal: !this.#on.frame.isFinal });
    });
    addHandles(this.#crop, {
      edges: () => (this.#isFree ? this.#on!.scene.crop : undefined),
      options: () => {
        const { photo, degrees } = this.#on!.scene;
        return { photo, degrees, shape: this.#keepsShape ? this.#on!.keptShape : undefined };
      },
      scale: () => view()!.scale,
      move: (edges) => {
        this.#hold();
        this.#on?.move(edges, this.#keepsShape);
        this.#draw();
      },
      letGo: () => {
        this.letGo();
      },
      reveal: (element) => {
        this.stage.reveal(this.#middleOf(element));
      },
    });
  }

  set switches(on: readonly Switch[]) {
    const before = this.#keepsShape;
    this.#switches = new Set(on);
    document.body.classList.toggle('with-people', this.#switches.has('body-map'));
    if (before !== this.#keepsShape) this.#showLadder();
    this.#draw();
  }

  show(frame: MatFrame): void {
    if (this.#isHeld) {
      this.#waiting = frame;
      return;
    }
    if (this.#awaited && isWaitOver(this.#awaited.output, frame)) this.#await(undefined);
    const before = this.#on;
    const isOther = before?.frame.name !== frame.name;
    const on = new FrameOnMat(frame, before);
    this.#on = on;
    document.body.classList.remove('empty');
    if (isOther) {
      this.#surface.end();
      this.stage.clear();
      byId('ladder').replaceChildren();
    } else this.#showLadder();
    this.#fixes.find(on);
    this.#notice.showFrame(frame);
    if (frame.whyNone !== undefined) this.#notice.show(`There is no crop of this shape: ${frame.whyNone}.`);
    showFrame(frame);
    if (!this.#awaited) this.#outputs.show(frame.outputs.map(offeredOutput), frame.output, outputTitle(frame));
    this.#level.show(on.scene.degrees, frame.measuredLevel, whyNotTurned(frame));
    this.stage.place(on.scene.photo, on.scene.degrees);
  }

  async showPicture(picture: Extract<ToMat, { kind: 'picture' }>): Promise<void> {
    const isMeant = (): boolean => this.#on?.frame.revision === picture.revision;
    if (isMeant() && (await this.stage.showPicture(picture, isMeant))) this.#showLadder();
  }

  showNothing(reason: string): void {
    this.#await(undefined);
    this.#isHeld = false;
    this.#surface.end();
    this.#on = undefined;
    document.body.classList.add('empty');
    byId('reason').textContent = reason;
  }

  /** What is held is let go: the text gets it. */
  letGo(): void {
    const on = this.#on;
    if (!on || !this.#isHeld) return;
    this.#isHeld = false;
    on.endTurn();
    this.stage.place(on.scene.photo, on.scene.degrees);
    const waiting = this.#waiting;
    this.#waiting = undefined;
    const { revision } = on.frame;
    if (on.isChanged) this.#send({ kind: 'crop', revision, crop: on.written, degrees: on.scene.degrees });
    else if (waiting) this.show(waiting);
  }

  showNotice(text: string): void {
    this.#notice.show(text);
  }

  /** A crop that was chosen goes into the text at once, with the picture turned as it is or by these degrees. */
  #write(crop: Rectangle, degrees?: number): void {
    const on = this.#on;
    if (!on || !this.#isFree) return;
    this.letGo();
    on.take(crop, degrees ?? on.scene.degrees);
    this.stage.place(on.scene.photo, on.scene.degrees);
    if (on.isChanged) this.#send({ kind: 'crop', revision: on.frame.revision, crop, degrees: on.scene.degrees });
  }

  #cutFor(output: string | undefined): void {
    this.letGo();
    this.#await({ output });
    this.#send({ kind: 'cut-for', output });
  }

  #await(awaited: { readonly output: string | undefined } | undefined): void {
    this.#awaited = awaited;
    document.body.classList.toggle('leaving', awaited !== undefined);
  }

  get #isFree(): boolean {
    return this.#on?.frame.isFinal === false && this.stage.view !== undefined && !this.#awaited;
  }

  get #keepsShape(): boolean {
    return this.#switches.has('keep-shape');
  }

  #hold(): void {
    this.#isHeld = true;
  }

  #turn(degrees: number): void {
    if (!this.#isFree) return;
    this.#hold();
    this.#on!.turn(degrees);
    const { scene } = this.#on!;
    this.stage.place(scene.photo, scene.degrees, true);
  }

  #correct(correction: Correction): void {
    if (!this.#on) return;
    this.#on.correct(correction);
    this.#send({ kind: 'correct', revision: this.#on.frame.revision, correction });
    this.#draw();
  }

  /** Draws with the next picture of the screen, once. */
  #draw(): void {
    if (this.#isDrawing) return;
    this.#isDrawing = true;
    requestAnimationFrame(() => {
      this.#isDrawing = false;
      this.#paint();
    });
  }

  #paint(): void {
    const [on, view] = [this.#on, this.stage.view];
    if (!on || !view) return;
    const { scene, frame } = on;
    const { left, top, right, bottom } = view.edgesOnPage(scene.crop);
    const box = { left: `${left}px`, top: `${top}px`, width: `${right - left}px`, height: `${bottom - top}px` };
    Object.assign(this.#crop.style, box);
    const findings = on.findings();
    this.#overlay.setAttribute('viewBox', `0 0 ${view.page.width} ${view.page.height}`);
    this.#drawBodies(scene, view);
    this.#marks.replaceChildren(...marksOf(on, view, this.#switches, findings), ...this.#surface.draw());
    this.#people.show(scene.people, frame.canTakeBack);
    this.#level.showDegrees(scene.degrees);
    this.#findings.show({
      findings,
      fixes: this.#isHeld || on.isChanged ? NONE : this.#fixes.of(on),
      canAllow: (rule) => !frame.isFinal && !this.#isHeld && on.configuration.has(rule),
      hasOutputs: frame.outputs.length > 0,
      whenNone: frame.isMeasured ? 'Nothing to say.' : 'Nobody has measured the people in this photo yet.',
    });
    showCrop(scene, findings, this.#isHeld);
  }

  /** A crop that moves leaves the bodies where they are: they are drawn anew only when they or the view have changed. */
  #drawBodies({ figures, people }: Scene, view: View): void {
    const isShown = this.#switches.has('body-map');
    const drawn = { figures: isShown ? figures : undefined, view };
    if (this.#drawn?.figures === drawn.figures && this.#drawn?.view === view) return;
    this.#drawn = drawn;
    this.#bodies.replaceChildren(...(isShown ? bodyMap(figures, view) : []));
    this.#joints.draw(isShown ? people : [], view);
  }

  #middleOf(element: HTMLElement): Point {
    const { left, top } = this.stage.element.getBoundingClientRect();
    const box = element.getBoundingClientRect();
    return { x: (box.left + box.right) / 2 - left, y: (box.top + box.bottom) / 2 - top };
  }

  #showLadder(): void {
    const on = this.#on;
    const { address } = this.stage;
    if (!on || address === undefined) return;
    // The picture first: the search for all lengths takes a moment.
    void painted().then(() => {
      if (this.#on !== on) return;
      showLadder(byId('ladder'), on, {
        address,
        keepsShape: this.#keepsShape,
        choose: ({ crop }) => {
          this.#write(crop);
        },
      });
    });
  }
}
