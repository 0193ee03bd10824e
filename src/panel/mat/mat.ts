import { shapeWords } from '../../geometry/shape-words.ts';
import type { Edges } from '../../geometry/shapes.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { FromMat, MatFrame } from '../messages.ts';
import { byId } from './elements.ts';
import { listFindings } from './findings-list.ts';
import { FrameOnMat } from './frame-on-mat.ts';
import { addHandles } from './handles.ts';
import { showLadder } from './ladder-column.ts';
import { bodyMap, guideLines, hurtMarks, wasLine } from './overlay.ts';
import { View } from './view.ts';

/** The cutting mat: one photo, its crop, and what is found in it while the crop moves. */
export class Mat {
  readonly #send: (message: FromMat) => void;
  readonly #stage = byId('stage');
  readonly #photo = byId('photo') as HTMLImageElement;
  readonly #crop = byId('crop');
  readonly #overlay = byId('overlay');
  #on: FrameOnMat | undefined;
  #view: View | undefined;
  #isDrawing = false;
  switches: ReadonlySet<string> = new Set();

  constructor(send: (message: FromMat) => void) {
    this.#send = send;
    addHandles(this.#crop, {
      edges: () => (this.#on?.frame.isFinal === false ? this.#on.scene.crop : undefined),
      options: () => {
        const { photo, degrees, shape } = this.#on!.scene;
        return { photo, degrees, shape: this.switches.has('keep-shape') ? shape : undefined };
      },
      scale: () => this.#view!.scale,
      move: (edges) => {
        this.#on?.move(edges);
        this.draw();
      },
      letGo: () => {
        this.#letGo();
      },
    });
    new ResizeObserver(() => {
      this.#fit();
    }).observe(this.#stage);
  }

  show(frame: MatFrame): void {
    const isOther = this.#on?.frame.name !== frame.name;
    this.#on = new FrameOnMat(frame);
    document.body.classList.remove('empty');
    byId('name').textContent = frame.name;
    byId('place').textContent = frame.place;
    byId('state').textContent = frame.isFinal ? 'approved' : '';
    this.#crop.setAttribute('aria-label', `Crop of ${frame.name}. Arrow keys move it, with Shift in larger steps.`);
    if (isOther) {
      this.#photo.hidden = true;
      byId('ladder').replaceChildren();
    } else this.#showLadder();
    this.#fit();
  }

  showPicture(index: number, address: string): void {
    const picture = new Image();
    picture.src = address;
    const show = (): void => {
      if (this.#on?.frame.index !== index) return;
      if (this.#photo.src !== address) this.#photo.src = address;
      this.#photo.hidden = false;
      this.#showLadder();
    };
    // What is decoded is shown at once, with no empty moment between two frames.
    picture.decode().then(show, show);
  }

  showNothing(reason: string): void {
    this.#on = undefined;
    document.body.classList.add('empty');
    byId('reason').textContent = reason;
  }

  /** Draws with the next picture of the screen, once. */
  draw(): void {
    if (this.#isDrawing) return;
    this.#isDrawing = true;
    requestAnimationFrame(() => {
      this.#isDrawing = false;
      this.#paint();
    });
  }

  #fit(): void {
    if (!this.#on) return;
    const { photo, degrees } = this.#on.scene;
    const { clientWidth: width, clientHeight: height } = this.#stage;
    const view = new View(photo, degrees, { width, height });
    this.#view = view;
    const { style } = this.#photo;
    style.width = `${photo.width * view.scale}px`;
    style.height = `${photo.height * view.scale}px`;
    style.left = `${(width - photo.width * view.scale) / 2}px`;
    style.top = `${(height - photo.height * view.scale) / 2}px`;
    style.rotate = `${degrees}deg`;
    this.#overlay.setAttribute('viewBox', `0 0 ${width} ${height}`);
    this.draw();
  }

  #paint(): void {
    const [on, view] = [this.#on, this.#view];
    if (!on || !view) return;
    const { scene, was } = on;
    const { left, top, right, bottom } = view.edgesOnPage(scene.crop);
    Object.assign(this.#crop.style, {
      left: `${left}px`,
      top: `${top}px`,
      width: `${right - left}px`,
      height: `${bottom - top}px`,
    });
    const findings = on.findings();
    this.#overlay.replaceChildren(
      ...(this.switches.has('body-map') ? bodyMap(scene, view) : []),
      ...guideLines(scene, view, this.switches),
      ...wasLine(was.crop, scene.crop, view),
      ...hurtMarks(scene, view, findings),
    );
    byId('facts').textContent = factsOf(scene.crop, scene.length && LENGTH_WORDS[scene.length]);
    const clean = on.frame.isMeasured ? 'Nothing to say.' : 'Nobody has measured the people in this photo yet.';
    listFindings(byId('findings'), findings, clean);
  }

  #showLadder(): void {
    const on = this.#on;
    if (!on || this.#photo.src === '') return;
    // The picture first: the search for all lengths takes a moment.
    setTimeout(() => {
      if (this.#on !== on) return;
      showLadder(byId('ladder'), on, this.#photo.src, (edges) => {
        on.move(edges);
        this.draw();
        this.#letGo();
      });
    }, 0);
  }

  #letGo(): void {
    if (!this.#on || this.#on.scene.crop === this.#on.was.crop) return;
    this.#send({ kind: 'crop', index: this.#on.frame.index, crop: this.#on.written });
  }
}

function factsOf(crop: Edges, length: string | undefined): string {
  const [width, height] = [Math.round(widthOf(crop)), Math.round(heightOf(crop))];
  const words = [length, shapeWords(width, height), `${width} × ${height} px`];
  return words.filter((word) => word !== undefined).join(', ');
}
