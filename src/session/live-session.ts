import { isDeepStrictEqual } from 'node:util';
import type { FrameEntry } from '../manifest/frame-entries.ts';
import { LiveManifest } from '../manifest/live-manifest.ts';
import type { TextEdit } from '../manifest/text-edit.ts';
import type { PeopleFile } from '../people/people-file.ts';
import { Pauses } from './breathe.ts';
import { contextOf, type CheckContext, type PhotoStates } from './check-context.ts';
import { FileFindings } from './file-findings.ts';
import { configurationOf, RULE_CATALOGUE } from './file-rules.ts';
import { KeptOutputs, type KeptCheck } from './kept-outputs.ts';
import { certain, checkMain, withOutputs, type FrameCheck, type FrameInput } from './frame-check.ts';
import { moved, type LocatedFinding } from './located-finding.ts';
import type { PhotoState } from './photo-states.ts';
import type { PhotosFolder } from './photos-folder.ts';
import type { Remedies } from './remedies.ts';
import type { SessionCheck } from './session-check.ts';
import type { Session } from './session.ts';

/**
 * A session that is being edited: the manifest's text, the people, the state of the photos. After a change only the
 * frames are checked again whose own text, people, photo or file-wide settings changed, and only when somebody asks.
 * What it finds is at every moment what a fresh check of the same finds. It reads no file: whoever holds it brings
 * what changed.
 */
export class LiveSession {
  readonly #path: string;
  readonly #peoplePath: string;
  readonly #remedies: Remedies | undefined;
  readonly #manifest: LiveManifest;
  #people: PeopleFile;
  #photosFolder: PhotosFolder;
  readonly #states: Map<string, PhotoState>;
  #context: CheckContext;
  #isContextStale = false;
  #changes = 0;
  /** By the entries' content, which is the same object while an entry says the same. */
  readonly #main = new WeakMap<object, KeptCheck>();
  readonly #whole = new WeakMap<KeptCheck, FrameCheck>();
  readonly #outputs = new KeptOutputs();

  /** @param states of the photos; a photo that is not in it is absent */
  constructor(session: Session, states: PhotoStates) {
    this.#path = session.path;
    this.#peoplePath = session.peoplePath;
    this.#remedies = session.remedies;
    this.#manifest = new LiveManifest(session.manifest, RULE_CATALOGUE);
    this.#people = session.people;
    this.#photosFolder = session.photosFolder;
    this.#states = new Map(states);
    this.#context = contextOf(session, this.#states);
  }

  /** The session as it is now. */
  get session(): Session {
    const { manifest } = this.#manifest;
    return { ...this.#header(), manifest, peoplePath: this.#peoplePath };
  }

  get text(): string {
    return this.#manifest.text;
  }

  /** How many frames can be read. */
  get frameCount(): number {
    return this.#manifest.entries.length;
  }

  /**
   * Makes one edit of the manifest (offsets into the present text, in UTF-16 code units).
   * @returns the place of the only frame whose findings may have changed; undefined when others may have, too
   * @throws RangeError when the edit lies outside the text
   */
  edit(edit: TextEdit): number | undefined {
    const place = this.#manifest.edit(edit);
    this.#changes++;
    if (place === undefined) this.#isContextStale = true;
    return place;
  }

  /** Takes another people file; only frames whose line changed are checked again. */
  setPeople(people: PeopleFile): void {
    this.#people = people;
    this.#takeChange();
  }

  /** Takes what the disk says of one photo; undefined forgets it. */
  setPhotoState(photo: string, state: PhotoState | undefined): void {
    if (state) this.#states.set(photo, state);
    else this.#states.delete(photo);
    this.#takeChange();
  }

  /** Takes another photos folder, when the manifest names another; the states of its photos come by setPhotoState. */
  setPhotosFolder(folder: PhotosFolder): void {
    this.#photosFolder = folder;
    this.#takeChange();
  }

  /** What is found about the frame at a place (0 up to `frameCount`), without fixes. */
  frameCheck(place: number): FrameCheck {
    const { check, start } = this.#checkOf(this.#manifest.entries[place]!);
    return this.#asItIsNow(check, place, start);
  }

  /** The findings of the frame at a place, without the rest of its check. */
  frameFindings(place: number): readonly LocatedFinding[] {
    const { check, start } = this.#checkOf(this.#manifest.entries[place]!);
    return moved(check.findings, this.#manifest.startOf(place) - start);
  }

  /** What is found about the manifest, the people file and the photos as a whole. */
  sessionFindings(): LocatedFinding[] {
    const files = new FileFindings(this.#freshContext());
    return files.ofSession(this.#manifest.surroundings, {
      people: this.#people,
      peoplePath: this.#peoplePath,
      photosFolder: this.#photosFolder,
    });
  }

  /**
   * Checks what changed and gives everything that is found. Others come in between; what they change meanwhile is in the
   * result.
   * @throws the signal's reason when it aborts; what was checked until then stays
   */
  async check(signal?: AbortSignal): Promise<SessionCheck> {
    await this.#checkEach(signal, (entry) => this.#checkOf(entry));
    return this.#told((place) => this.frameCheck(place));
  }

  /**
   * The same without the crops of outputs, of which the search takes longest, and without what that may take back: all
   * that this finds is in the whole check, too.
   * @throws the signal's reason when it aborts; what was checked until then stays
   */
  async checkMainCrops(signal?: AbortSignal): Promise<SessionCheck> {
    await this.#checkEach(signal, (entry) => this.#mainOf(entry));
    return this.#told((place) => {
      const { check, start } = this.#mainOf(this.#manifest.entries[place]!);
      return this.#asItIsNow(certain(check), place, start);
    });
  }

  async #checkEach(signal: AbortSignal | undefined, work: (entry: FrameEntry) => void): Promise<void> {
    const pauses = new Pauses(signal);
    for (let seen = -1; seen !== this.#changes;) {
      seen = this.#changes;
      for (let place = 0; place < this.frameCount && seen === this.#changes; place++) {
        if (pauses.isDue) await pauses.take();
        if (seen === this.#changes) work(this.#manifest.entries[place]!);
      }
    }
  }

  #told(checkAt: (place: number) => FrameCheck): SessionCheck {
    const frames = this.#manifest.entries.map((_, place) => checkAt(place));
    return { session: this.session, findings: this.sessionFindings(), frames };
  }

  /** A check of the frame at a place with the ranges of the present text. */
  #asItIsNow(check: FrameCheck, place: number, start: number): FrameCheck {
    const { frame } = this.#manifest.entryAt(place);
    return { ...check, frame, findings: moved(check.findings, this.#manifest.startOf(place) - start) };
  }

  #takeChange(): void {
    this.#changes++;
    this.#isContextStale = true;
  }

  #checkOf(entry: FrameEntry): Pick<KeptCheck, 'check' | 'start'> {
    const main = this.#mainOf(entry);
    const known = this.#whole.get(main);
    if (known) return { check: known, start: main.start };
    const found = this.#outputs.of(entry.content, main, this.#inputOf(entry));
    const check = withOutputs(main.check, found);
    this.#whole.set(main, check);
    return { check, start: main.start };
  }

  #mainOf(entry: FrameEntry): KeptCheck {
    const context = this.#freshContext();
    const photo = entry.frame.photo.value;
    const people = this.#people.lines.get(photo);
    const state = this.#states.get(photo);
    const known = this.#main.get(entry.content);
    const isSame = known?.context === context && known.people === people && isDeepStrictEqual(known.state, state);
    if (known && isSame) return known;
    const check = checkMain(context, this.#inputOf(entry));
    const kept: KeptCheck = { check, start: entry.start, context, people, state };
    this.#main.set(entry.content, kept);
    return kept;
  }

  #inputOf({ frame, problems }: FrameEntry): FrameInput {
    const photo = frame.photo.value;
    return { frame, problems, measured: this.#people.photos.get(photo), state: this.#states.get(photo) };
  }

  #freshContext(): CheckContext {
    if (this.#isContextStale) {
      this.#context = contextOf(this.#header(), this.#states, this.#context);
      this.#isContextStale = false;
    }
    return this.#context;
  }

  /** The session without ranges that are right. */
  #header(): Omit<Session, 'peoplePath'> {
    const manifest = this.#manifest.header;
    const configuration = configurationOf(manifest);
    return {
      path: this.#path,
      manifest,
      configuration,
      people: this.#people,
      photosFolder: this.#photosFolder,
      remedies: this.#remedies,
    };
  }
}
