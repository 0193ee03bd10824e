import type { TextDocument, TextDocumentContentChangeEvent } from 'vscode';
import { EventEmitter } from 'vscode';
import type { Size } from '../geometry/shapes.ts';
import type { Frame } from '../manifest/manifest.ts';
import { DEFAULT_PHOTOS } from '../manifest/manifest.ts';
import type { TextEdit } from '../manifest/text-edit.ts';
import { EMPTY_PEOPLE_FILE, type PeopleFile } from '../people/people-file.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { LiveSession } from '../session/live-session.ts';
import type { PhotoState } from '../session/photo-states.ts';
import { findPhotosFolder } from '../session/photos-folder.ts';
import type { SessionCheck } from '../session/session-check.ts';
import { openSessionText, peoplePathOf, readPeopleFile, type Session } from '../session/session.ts';
import { Delayed } from './delayed.ts';
import { messageOf, type Log } from './log.ts';
import { EDITOR_REMEDIES } from './remedies.ts';
import { differenceOf } from './text-difference.ts';
import type { Part } from './part.ts';

/** Looks at photos on the disk; absent where photos must not be looked at. */
export type LookAtPhotos = (
  session: Session,
  photos: readonly string[],
  signal: AbortSignal,
) => Promise<readonly (readonly [string, PhotoState])[]>;

export interface OpenManifestOptions {
  readonly log: Log;
  readonly lookAtPhotos: LookAtPhotos | undefined;
  /** Where this session's photos are, when the user says so. */
  readonly photosFolder: string | undefined;
  /** Tells the user. */
  readonly warn: (message: string) => void;
}

/** Until somebody has looked, a photo is taken to be there. */
const ASSUMED: PhotoState = { kind: 'present', path: '' };
/** Milliseconds without typing before anything is checked. */
const PAUSE = 150;

/**
 * A manifest that is open in the editor, checked while it is edited. Edits are only noted while somebody types; reading
 * and checking come after a pause, in small steps, and are given up when there is a newer edit.
 */
export class OpenManifest implements Part {
  readonly document: TextDocument;
  readonly #options: OpenManifestOptions;
  readonly #live: LiveSession;
  readonly #changed = new EventEmitter<SessionCheck>();
  readonly #next: Delayed;
  /** Photos that somebody has looked at since they may have changed. */
  readonly #known = new Map<string, PhotoState>();
  /** Photos that have a state, if only an assumed one. */
  readonly #assumed: Set<string>;
  readonly #sizes = new Map<string, Size>();
  #folderName: string;
  #waiting: TextEdit[] = [];
  #latest: SessionCheck | undefined;
  /** The crops of outputs were once found, too: from then on nothing is told without them. */
  #isWhole = false;

  /** Everything that is found, each time that something may have changed. */
  readonly onDidCheck = this.#changed.event;

  static async open(document: TextDocument, options: OpenManifestOptions): Promise<OpenManifest> {
    const { photosFolder } = options;
    const { fsPath } = document.uri;
    const people = (await readPeople(fsPath, options)) ?? EMPTY_PEOPLE_FILE;
    const session = await openSessionText(fsPath, document.getText(), {
      photosFolder,
      people,
      remedies: EDITOR_REMEDIES,
    });
    return new OpenManifest(document, session, options);
  }

  private constructor(document: TextDocument, session: Session, options: OpenManifestOptions) {
    this.document = document;
    this.#options = options;
    this.#folderName = folderNameOf(session);
    const states = new Map(session.manifest.frames.map(({ photo }) => [photo.value, ASSUMED] as const));
    this.#assumed = new Set(states.keys());
    this.#live = new LiveSession(session, states);
    this.#next = new Delayed(
      PAUSE,
      (signal) => this.#work(signal),
      (error) => {
        options.log.error(`${session.path}: ${messageOf(error)}`);
      },
    );
    this.#next.start(0);
  }

  /** The session as the text says it now. */
  get session(): Session {
    this.#catchUp();
    return this.#live.session;
  }

  /**
   * The session as the text said it when it was read last, which is at the latest before the present typing: nothing is
   * read for it. Its ranges are right up to `unchangedUpTo`.
   */
  get lastRead(): Session {
    return this.#live.session;
  }

  /** Up to where the text is what it was when it was read last. */
  get unchangedUpTo(): number {
    const text = this.document.getText();
    return differenceOf(this.#live.text, text)?.start ?? text.length;
  }

  /** The frame at a place of `lastRead`, with what was found about it. */
  lastReadFrame(place: number): FrameCheck {
    return this.#live.frameCheck(place);
  }

  /** Where the photos are, when the user says so. */
  get photosFolder(): string | undefined {
    return this.#options.photosFolder;
  }

  /** What was found last; undefined before the first check. It may be of an older text. */
  get latest(): SessionCheck | undefined {
    return this.#latest;
  }

  /** The frames that touch a stretch of the text, checked as the text is now. */
  framesIn(start: number, end: number): FrameCheck[] {
    const { frames } = this.session.manifest;
    return frames.flatMap((frame, place) =>
      frame.range.start <= end && start <= frame.range.end ? [this.#live.frameCheck(place)] : [],
    );
  }

  /** A frame with what is found about it now; undefined when there is none of that index. */
  frameOf(index: number): FrameCheck | undefined {
    const place = this.session.manifest.frames.findIndex((frame) => frame.index === index);
    return place === -1 ? undefined : this.#live.frameCheck(place);
  }

  /** A photo's size in pixels, as it was measured or, else, looked up. */
  sizeOf(photo: string): Size | undefined {
    return this.session.people.photos.get(photo)?.size ?? this.#sizes.get(photo);
  }

  /** What the disk says of a photo; undefined while it is being looked at. */
  photoStateOf(photo: string): PhotoState | undefined {
    return this.#known.get(photo);
  }

  /** Everything that is found in the text as it is now. */
  async check(signal?: AbortSignal): Promise<SessionCheck> {
    this.#catchUp();
    return this.#live.check(signal);
  }

  /** Notes what was typed. */
  takeChanges(changes: readonly TextDocumentContentChangeEvent[]): void {
    for (const { rangeOffset, rangeLength, text } of changes) {
      this.#waiting.push({ start: rangeOffset, end: rangeOffset + rangeLength, text });
    }
    this.#next.start();
  }

  /** Reads the people file again. One that cannot be read leaves the people as they were. */
  async readPeople(): Promise<void> {
    const people = await readPeople(this.document.uri.fsPath, this.#options);
    if (!people) return;
    this.#live.setPeople(people);
    this.#known.clear();
    this.#next.start();
  }

  /** Looks at all photos again. */
  lookAgain(): void {
    this.#known.clear();
    this.#next.start();
  }

  dispose(): void {
    this.#next.dispose();
    this.#changed.dispose();
  }

  /** Brings the live session to the document's text. */
  #catchUp(): void {
    const edits = this.#waiting;
    this.#waiting = [];
    try {
      for (const edit of edits) this.#live.edit(edit);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
    }
    // Whatever was missed (a text that was reloaded, an edit before the session was open) is one edit more.
    const difference = differenceOf(this.#live.text, this.document.getText());
    if (difference) this.#live.edit(difference);
  }

  async #work(signal: AbortSignal): Promise<void> {
    const began = performance.now();
    await this.#followFolder();
    const asked = this.#assumePhotos();
    if (!this.#isWhole && this.session.manifest.deliver.size > 0) {
      // Outputs take a search for each frame: what the frames themselves have is told first.
      this.#tell(await this.#live.checkMainCrops(signal));
    }
    this.#tell(await this.check(signal));
    this.#isWhole = true;
    this.#options.log.debug(`checked ${this.document.uri.fsPath}: ${Math.round(performance.now() - began)} ms`);
    if (asked.length === 0 || !this.#options.lookAtPhotos) return;
    const states = await this.#options.lookAtPhotos(this.session, asked, signal);
    signal.throwIfAborted();
    const names = new Set(this.session.manifest.frames.map((frame) => frame.photo.value));
    for (const [photo, seen] of states) {
      // Only some photos were asked about: what another frame has is not what this one means.
      const isTaken = seen.kind === 'absent' && seen.meant !== undefined && names.has(seen.meant);
      const state: PhotoState = isTaken ? { kind: 'absent' } : seen;
      this.#live.setPhotoState(photo, state);
      const size = 'size' in state ? state.size : undefined;
      if (size) this.#sizes.set(photo, size);
      this.#known.set(photo, state);
    }
    this.#tell(await this.check(signal));
  }

  #tell(check: SessionCheck): void {
    this.#latest = check;
    this.#changed.fire(check);
  }

  /** Follows `photos:` to another folder. */
  async #followFolder(): Promise<void> {
    const { session } = this;
    const name = folderNameOf(session);
    if (name === this.#folderName) return;
    this.#folderName = name;
    this.#live.setPhotosFolder(await findPhotosFolder(session.path, name, this.#options.photosFolder));
    this.#known.clear();
  }

  /** Photos that nobody has looked at; those that are new are taken to be there. */
  #assumePhotos(): string[] {
    const names = new Set(this.session.manifest.frames.map(({ photo }: Frame) => photo.value));
    const asked = [...names].filter((name) => !this.#known.has(name));
    for (const name of asked.filter((photo) => !this.#assumed.has(photo))) {
      this.#live.setPhotoState(name, ASSUMED);
      this.#assumed.add(name);
    }
    return asked;
  }
}

/** The people file; undefined, and said so, when it cannot be read at all. */
async function readPeople(manifestPath: string, { log, warn }: OpenManifestOptions): Promise<PeopleFile | undefined> {
  try {
    return await readPeopleFile(peoplePathOf(manifestPath));
  } catch (error) {
    log.error(messageOf(error));
    warn(messageOf(error));
    return undefined;
  }
}

function folderNameOf({ manifest }: Session): string {
  return manifest.photos?.value ?? DEFAULT_PHOTOS;
}
