import { extname } from 'node:path';
import type { Uri } from 'vscode';
import { EventEmitter, workspace } from 'vscode';
import { Delayed } from './delayed.ts';
import { messageOf, type Log } from './log.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';
import { MANIFEST_PATTERN, manifestUris } from './workspace-manifests.ts';
import { readSummary, summaryOf, type SessionSummary } from './session-summary.ts';

/** What the list needs to know of manifests that an editor has open. */
export type OpenSessions = Pick<OpenManifests, 'opened' | 'onDidCheck' | 'onDidClose'>;

/** The manifests of the workspace and what is found in each, read one after the other while somebody looks. */
export class SessionList implements Part {
  readonly #manifests: OpenSessions;
  readonly #changed = new EventEmitter<Uri | undefined>();
  readonly #summaries = new Map<string, SessionSummary>();
  readonly #reading: Delayed;
  readonly #finding = new Delayed(300, () => {
    this.#findAgain();
    return Promise.resolve();
  });
  readonly #subscriptions: Part[];
  #uris: readonly Uri[] | undefined;
  #isSeen = false;

  /** What is told of this session may be different now; of none: the list itself is. */
  readonly onDidChange = this.#changed.event;

  constructor(manifests: OpenSessions, log: Log) {
    this.#manifests = manifests;
    this.#reading = new Delayed(300, (signal) => this.#read(signal), (error) => {
      log.error(messageOf(error));
    }); // prettier-ignore
    const watcher = workspace.createFileSystemWatcher(MANIFEST_PATTERN);
    const people = workspace.createFileSystemWatcher('**/*.people.jsonl');
    // A folder that comes or goes says nothing of the files in it.
    const folders = workspace.createFileSystemWatcher('**/*', false, true, false);
    const readAgain = (uri: Uri): void => {
      this.#forget(uri.with({ path: uri.path.replace(/\.people\.jsonl$/, '.yaml') }));
    };
    this.#subscriptions = [
      this.#reading,
      this.#finding,
      this.#changed,
      watcher,
      people,
      folders,
      watcher.onDidCreate((uri) => {
        this.#forget(uri);
        this.#finding.start();
      }),
      watcher.onDidChange(readAgain),
      people.onDidCreate(readAgain),
      people.onDidChange(readAgain),
      people.onDidDelete(readAgain),
      folders.onDidCreate((uri) => {
        if (extname(uri.path) === '') this.#finding.start();
      }),
      folders.onDidDelete((uri) => {
        const gone = (this.#uris ?? []).filter(({ path }) => path === uri.path || path.startsWith(`${uri.path}/`));
        if (gone.length === 0) return;
        for (const each of gone) this.#summaries.delete(each.toString());
        this.#finding.start();
      }),
      workspace.onDidChangeWorkspaceFolders(() => {
        this.#finding.start();
      }),
      manifests.onDidCheck(({ manifest: { document }, check }) => {
        if (this.#uris === undefined) return;
        if (this.#isSeen) this.#summaries.set(document.uri.toString(), summaryOf(check));
        else this.#summaries.delete(document.uri.toString());
        this.#changed.fire(document.uri);
      }),
      manifests.onDidClose((uri) => {
        this.#summaries.delete(uri.toString());
        this.#reading.start();
      }),
    ];
  }

  /** All manifests, by path. They are looked for when somebody first asks. */
  async uris(): Promise<readonly Uri[]> {
    if (this.#uris) return this.#uris;
    this.#uris = await manifestUris();
    this.#reading.start(0);
    return this.#uris;
  }

  /** What is known of a session; undefined until it was read. */
  summaryOf(uri: Uri): SessionSummary | undefined {
    return this.#summaries.get(uri.toString());
  }

  /** Sessions are read only while somebody looks. */
  set isSeen(isSeen: boolean) {
    this.#isSeen = isSeen;
    if (isSeen) this.#reading.start(0);
    else this.#reading.stop();
  }

  dispose(): void {
    for (const subscription of this.#subscriptions) subscription.dispose();
  }

  async #read(signal: AbortSignal): Promise<void> {
    let hasRead = false;
    for (const uri of this.#uris ?? []) {
      if (!this.#isSeen) return;
      if (this.#summaries.has(uri.toString())) continue;
      const summary = this.#openSummary(uri) ?? (await readSummary(uri.fsPath, signal));
      signal.throwIfAborted();
      this.#summaries.set(uri.toString(), summary);
      this.#changed.fire(uri);
      hasRead = true;
    }
    // The editor passes over a line that it is only just drawing.
    if (hasRead) this.#changed.fire(undefined);
  }

  #openSummary(uri: Uri): SessionSummary | undefined {
    const open = workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
    const latest = open && this.#manifests.opened(open)?.latest;
    return latest && summaryOf(latest);
  }

  #findAgain(): void {
    if (this.#uris === undefined) return;
    this.#uris = undefined;
    this.#changed.fire(undefined);
  }

  /** A file changed on the disk: what an editor has open tells of itself. */
  #forget(uri: Uri): void {
    const isOpen = workspace.textDocuments.some((document) => document.uri.toString() === uri.toString());
    if (this.#uris === undefined || isOpen) return;
    this.#summaries.delete(uri.toString());
    this.#reading.start();
  }
}
