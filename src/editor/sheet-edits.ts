import type { TextDocument } from 'vscode';
import { ProgressLocation, window, workspace } from 'vscode';
import { editFrames, type FrameChange } from '../manifest/edit.ts';
import type { Act, ToSheet } from '../panel/sheet-messages.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { signalOf } from './cancelling.ts';
import { pictureCosts } from './picture-costs.ts';
import type { Log } from './log.ts';
import type { OpenManifest } from './open-manifest.ts';
import { workspaceEdit } from './places.ts';
import { askFor, askForRule, type ChangeOf } from './sheet-acts.ts';
import { editsOf, findFixes, type FixQuestion, type PendingFix } from './sheet-review.ts';

export interface SheetEditsOptions {
  readonly log: Log;
  readonly manifest: () => Promise<OpenManifest | undefined>;
  readonly post: (message: ToSheet) => void;
}

/** What is done with the frames that somebody selected on a sheet; each deed is one edit of the text. */
export class SheetEdits {
  readonly #options: SheetEditsOptions;
  #pending: PendingFix | undefined;
  /** The text's version that what was said last is about; undefined when it is about none. */
  #saidOf: number | undefined;

  constructor(options: SheetEditsOptions) {
    this.#options = options;
  }

  /** Crops that were found and wait for somebody to look them through. */
  get pending(): PendingFix | undefined {
    return this.#pending;
  }

  /** What was said of a change is not true any more once the text changes otherwise. */
  takeChange({ version }: TextDocument): void {
    if (this.#saidOf !== undefined && version !== this.#saidOf) this.#say('');
  }

  /** @param names of the frames that are meant */
  async act(act: Act, names: ReadonlySet<string>): Promise<void> {
    const checks = await this.#checksOf(names);
    if (act === 'fix') await this.#fix({ names, rule: undefined });
    else if (act === 'fix-rule') {
      const rule = await askForRule(checks);
      if (rule === undefined) this.#say('');
      else await this.#fix({ names, rule });
    } else {
      const changeOf = await askFor(act, checks);
      if (changeOf) await this.#change(names, changeOf);
    }
  }

  /** Writes the crops that wait, but not those of these frames. */
  async write(leftOut: readonly number[]): Promise<void> {
    const manifest = await this.#options.manifest();
    const pending = this.#pending;
    if (!manifest || !pending) return;
    if (manifest.document.getText() !== pending.session.manifest.text) {
      await this.#fix(pending.question);
      this.#say('The text changed meanwhile, and nothing was written. These are the crops for the text as it is now.');
      return;
    }
    const edits = editsOf(pending, leftOut);
    if (edits.length > 0) await applyEdit(manifest, edits);
    const written = pending.fixed.filter(({ frame }) => !leftOut.includes(frame.index));
    for (const { frame, moved } of written) {
      this.#options.log.info(`fixed ${frame.name}: moved ${(moved * 100).toFixed(1)} %`);
    }
    const costs = pictureCosts(written);
    const back = `Undo takes ${written.length === 1 ? 'it' : 'all'} back.`;
    this.#end([`${frameWords(written.length)} changed.`, ...(costs === undefined ? [] : [costs]), back].join(' '));
    this.#saidOf = manifest.document.version;
  }

  /** Gives up the crops that wait. */
  dismiss(): void {
    this.#end('Nothing was changed.');
  }

  async #change(names: ReadonlySet<string>, changeOf: ChangeOf): Promise<void> {
    const manifest = await this.#options.manifest();
    if (!manifest) return;
    const changes = new Map<number, FrameChange>();
    for (const check of await this.#checksOf(names)) {
      const change = changeOf(check);
      if (change) changes.set(check.frame.index, change);
    }
    const edits = editFrames(manifest.session.manifest, changes);
    if (edits.length > 0) await applyEdit(manifest, edits);
    const changed = edits.length === 0 ? 0 : changes.size;
    const left = names.size - changed;
    const rest = left === 0 ? '' : ` ${frameWords(left)} stayed as ${left === 1 ? 'it is' : 'they are'}.`;
    this.#say(`${frameWords(changed)} changed.${rest}`);
    this.#saidOf = manifest.document.version;
  }

  async #fix(question: FixQuestion): Promise<void> {
    const manifest = await this.#options.manifest();
    if (!manifest) return;
    this.#pending = await window.withProgress(
      { location: ProgressLocation.Notification, title: 'Looking for better crops', cancellable: true },
      (_, token) => findFixes(manifest, question, signalOf(token)),
    );
    this.#options.post({ kind: 'review', review: this.#pending.review });
  }

  #end(words: string): void {
    this.#pending = undefined;
    this.#options.post({ kind: 'review-end' });
    this.#say(words);
  }

  async #checksOf(names: ReadonlySet<string>): Promise<FrameCheck[]> {
    const check = await (await this.#options.manifest())?.check();
    return check?.frames.filter(({ frame }) => names.has(frame.name)) ?? [];
  }

  #say(text: string): void {
    this.#saidOf = undefined;
    this.#options.post({ kind: 'told', text });
  }
}

async function applyEdit({ document }: OpenManifest, edits: Parameters<typeof workspaceEdit>[1]): Promise<void> {
  const isDone = await workspace.applyEdit(workspaceEdit(document, edits));
  if (!isDone) throw new Error('The editor did not take the change; nothing was written.');
}

function frameWords(number: number): string {
  return number === 0 ? 'No frame' : number === 1 ? '1 frame' : `${number.toLocaleString('en')} frames`;
}
