import { fork, type ChildProcess } from 'node:child_process';
import { join } from 'node:path';
import type { MeasureProgress } from '../session/measure.ts';
import {
  PHOTO_ROOM_PROTOCOL,
  type Exchanges,
  type FromPhotoRoom,
  type Task,
  type ToPhotoRoom,
} from '../session/photo-room/protocol.ts';
import { messageOf, type Log } from './log.ts';
import { findNode } from './node-program.ts';

interface Waiting {
  readonly resolve: (answer: never) => void;
  readonly reject: (error: Error) => void;
  readonly onProgress: ((progress: MeasureProgress) => void) | undefined;
}

export interface AskOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: MeasureProgress) => void;
}

/** The child process that touches pixels for the editor: started when first asked, and again after it has died. */
export class PhotoRoom {
  readonly #log: Log;
  readonly #script: string;
  readonly #onStop: (message: string) => void;
  readonly #waiting = new Map<number, Waiting>();
  #child: Promise<ChildProcess> | undefined;
  #lastId = 0;
  #isDisposed = false;

  /**
   * @param distFolder where the build put `photo-room.js`
   * @param onStop told when it stops without being asked to
   */
  constructor(distFolder: string, log: Log, onStop: (message: string) => void = () => undefined) {
    this.#log = log;
    this.#onStop = onStop;
    this.#script = join(distFolder, 'photo-room.js');
  }

  /**
   * Asks and waits for the answer.
   * @throws Error with the photo room's own words, or that it stopped
   */
  async ask<Kind extends Task>(
    task: Kind,
    question: Exchanges[Kind]['question'],
    { signal, onProgress }: AskOptions = {},
  ): Promise<Exchanges[Kind]['answer']> {
    signal?.throwIfAborted();
    const child = await (this.#child ??= this.#start());
    const id = ++this.#lastId;
    const stop = (): void => {
      send(child, { id, task: 'stop' });
    };
    signal?.addEventListener('abort', stop, { once: true });
    try {
      return await new Promise<Exchanges[Kind]['answer']>((resolve, reject) => {
        this.#waiting.set(id, { resolve, reject, onProgress });
        send(child, { id, task, question } as ToPhotoRoom);
      });
    } finally {
      this.#waiting.delete(id);
      signal?.removeEventListener('abort', stop);
    }
  }

  /** The process's id while it runs. */
  async processId(): Promise<number | undefined> {
    return (await this.#child)?.pid;
  }

  dispose(): void {
    this.#isDisposed = true;
    void this.#child?.then((child) => {
      child.disconnect();
    });
  }

  async #start(): Promise<ChildProcess> {
    const began = performance.now();
    const program = await findNode(this.#log);
    const child = fork(this.#script, [], {
      execPath: program,
      execArgv: [],
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      this.#log.warn(`photo room: ${text.trim()}`);
    });
    const isGone = new Promise<never>((_, reject) => {
      const gone = (how: string): void => {
        this.#hasGone(how);
        reject(new Error(how));
      };
      child.once('error', (error) => {
        gone(messageOf(error));
      });
      child.once('exit', (code, signal) => {
        gone(signal ?? `exit code ${code ?? 'unknown'}`);
      });
    });
    isGone.catch(() => undefined);
    const isReady = new Promise<void>((resolve, reject) => {
      child.on('message', (message: FromPhotoRoom) => {
        if (message.kind !== 'ready') this.#take(message);
        else if (message.protocol === PHOTO_ROOM_PROTOCOL) resolve();
        else reject(new Error('The photo room is of another version. Install the extension again.'));
      });
    });
    await Promise.race([isReady, isGone]);
    this.#log.info(`photo room: ${program}, process ${child.pid ?? 0}, ${Math.round(performance.now() - began)} ms`);
    return child;
  }

  #take(message: Exclude<FromPhotoRoom, { kind: 'ready' }>): void {
    const waiting = this.#waiting.get(message.id);
    if (message.kind === 'progress') waiting?.onProgress?.(message.progress);
    else if (message.kind === 'answer') waiting?.resolve(message.answer as never);
    else waiting?.reject(new Error(message.message));
  }

  #hasGone(how: string): void {
    this.#child = undefined;
    if (this.#isDisposed) return;
    const message = `The process that looks at photos stopped (${how}). It starts again when it is needed.`;
    this.#log.error(`photo room: ${message}`);
    this.#onStop(message);
    for (const { reject } of this.#waiting.values()) reject(new Error(message));
    this.#waiting.clear();
  }
}

function send(child: ChildProcess, message: ToPhotoRoom): void {
  // A write to a process that is just dying fails; its exit tells the same.
  if (child.connected) child.send(message, () => undefined);
}
