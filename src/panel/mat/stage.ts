import { WHOLE_PHOTO, type Point, type Size } from '../../geometry/shapes.ts';
import { WHOLE_EDGE, type ToMat } from '../messages.ts';
import { byId, painted } from '../page/elements.ts';
import { closeLook, type Look } from './look.ts';
import { fittingScale, middleOfPhoto, View } from './view.ts';

type Picture = Extract<ToMat, { kind: 'picture' }>;

const LARGEST_SCALE = 8;
/** Milliseconds without a move before a sharper picture is asked for. */
const PAUSE = 150;

/** What the stage needs from the mat. */
export interface StageUser {
  /** Everything on the stage is to be drawn anew. */
  redraw(): void;
  lookClosely(look: Look): void;
}

/** The place where the photo lies: fitted, or closer and moved about. */
export class Stage {
  readonly element = byId('stage');
  readonly #user: StageUser;
  readonly #picture = byId('picture');
  readonly #photo = byId('photo') as HTMLImageElement;
  readonly #detail = byId('detail') as HTMLImageElement;
  #view: View | undefined;
  /** Undefined: fitted. */
  #scale: number | undefined;
  #looked = '';
  /** What is shown of the whole photo is small, and a larger one is under way. */
  #isPreview = false;
  #timer = 0;

  constructor(user: StageUser) {
    this.#user = user;
    new ResizeObserver(() => {
      if (this.#view) this.place(this.#view.photo, this.#view.degrees);
    }).observe(this.element);
  }

  get view(): View | undefined {
    return this.#view;
  }

  /** The whole photo's address, once it is shown. */
  get address(): string | undefined {
    return this.#photo.hidden ? undefined : this.#photo.src;
  }

  /** Makes room for another photo. */
  clear(): void {
    this.#photo.hidden = true;
    this.#detail.hidden = true;
    this.#scale = undefined;
    this.#looked = '';
    this.#view = undefined;
  }

  /** @param isHeld the scale stays while something is being turned */
  place(photo: Size, degrees: number, isHeld = false): void {
    document.body.classList.toggle('lying', photo.width > photo.height);
    document.body.style.setProperty('--shape', String(photo.width / photo.height));
    const { clientWidth: width, clientHeight: height } = this.element;
    const page = { width, height };
    const held = isHeld ? this.#view?.scale : undefined;
    const scale = this.#scale ?? held ?? fittingScale(photo, degrees, page);
    const centre = this.#scale === undefined ? middleOfPhoto(photo) : (this.#view?.centre ?? middleOfPhoto(photo));
    this.#show(new View(photo, degrees, page, scale, centre));
  }

  /** @param at the place of the stage that stays where it is; else the middle */
  zoom(factor: number, at?: Point): void {
    if (!this.#view) return;
    const { photo, degrees, page, scale } = this.#view;
    const fitted = fittingScale(photo, degrees, page);
    const wanted = Math.min(LARGEST_SCALE, scale * factor);
    if (wanted <= fitted) this.fit();
    else this.#zoomTo(wanted, at ?? { x: page.width / 2, y: page.height / 2 });
  }

  /** One pixel of the photo on one of the screen. */
  oneToOne(): void {
    if (this.#view) this.#zoomTo(1 / devicePixelRatio, { x: this.#view.page.width / 2, y: this.#view.page.height / 2 });
  }

  fit(): void {
    this.#scale = undefined;
    if (this.#view) this.place(this.#view.photo, this.#view.degrees);
  }

  /** Moves the picture by pixels of the page. */
  pan({ x, y }: Point): void {
    if (!this.#view || this.#scale === undefined) return;
    const { photo, degrees, page, scale, centre } = this.#view;
    this.#show(new View(photo, degrees, page, scale, keptNear(photo, centre.x - x / scale, centre.y - y / scale)));
  }

  /** Brings a place of the page into sight. */
  reveal({ x, y }: Point): void {
    if (!this.#view) return;
    const { width, height } = this.#view.page;
    const away = (value: number, most: number): number => (value < 0 || value > most ? most / 2 - value : 0);
    const by = { x: away(x, width), y: away(y, height) };
    if (by.x !== 0 || by.y !== 0) this.pan(by);
  }

  /**
   * Shows a picture, but no small one in the place of a large one; asks for the large one only once the small one is
   * painted, so that nothing comes in the way of what is waited for.
   * @returns whether the whole photo is shown now that was not before
   */
  async showPicture(picture: Omit<Picture, 'kind' | 'revision'>, isStillMeant: () => boolean): Promise<boolean> {
    const isFirst = await this.#showDecoded(picture, isStillMeant);
    if (picture.isPreview === true) {
      void painted().then(() => {
        if (isStillMeant()) this.#user.lookClosely({ region: WHOLE_PHOTO, longEdge: WHOLE_EDGE });
      });
    }
    return isFirst;
  }

  async #showDecoded(
    { region, address, isPreview = false }: Omit<Picture, 'kind' | 'revision'>,
    isStillMeant: () => boolean,
  ): Promise<boolean> {
    const isWhole = region.w === 1 && region.h === 1;
    const image = isWhole ? this.#photo : this.#detail;
    if (isWhole && (isPreview ? !this.#photo.hidden : this.address === address)) return false;
    const picture = new Image();
    picture.src = address;
    // What is decoded is shown at once, with no empty moment between two pictures.
    await picture.decode().catch(() => undefined);
    if (!isStillMeant() || picture.naturalWidth === 0 || (isPreview && !this.#photo.hidden)) return false;
    const isFirst = isWhole && image.hidden;
    image.src = address;
    image.hidden = false;
    if (isWhole) {
      this.#isPreview = isPreview;
      this.#lookSoon();
    } else {
      const percent = (value: number): string => `${value * 100}%`;
      const { x: left, y: top, w: width, h: height } = region;
      Object.assign(image.style, { left: percent(left), top: percent(top), width: percent(width), height: percent(height) }); // prettier-ignore
    }
    return isFirst;
  }

  #zoomTo(scale: number, at: Point): void {
    const { photo, degrees, page } = this.#view!;
    const there = this.#view!.fromPage(at);
    this.#scale = scale;
    const x = there.x - (at.x - page.width / 2) / scale;
    const y = there.y - (at.y - page.height / 2) / scale;
    this.#show(new View(photo, degrees, page, scale, keptNear(photo, x, y)));
  }

  #show(view: View): void {
    this.#view = view;
    const { photo, scale, degrees } = view;
    const { x, y } = view.toPage({ x: 0, y: 0 });
    Object.assign(this.#picture.style, {
      width: `${photo.width * scale}px`,
      height: `${photo.height * scale}px`,
      left: `${x}px`,
      top: `${y}px`,
      rotate: `${degrees}deg`,
    });
    this.#lookSoon();
    this.#user.redraw();
  }

  #lookSoon(): void {
    window.clearTimeout(this.#timer);
    this.#timer = window.setTimeout(() => {
      const look = this.#view && closeLook(this.#view, Math.max(this.#photo.naturalWidth, this.#photo.naturalHeight), devicePixelRatio); // prettier-ignore
      const text = JSON.stringify(look);
      if (!look || this.#photo.hidden || this.#isPreview || text === this.#looked) return;
      this.#looked = text;
      this.#user.lookClosely(look);
    }, PAUSE);
  }
}

/** The middle of the page stays over the photo. */
function keptNear({ width, height }: Size, x: number, y: number): Point {
  return { x: Math.min(width, Math.max(0, x)), y: Math.min(height, Math.max(0, y)) };
}
