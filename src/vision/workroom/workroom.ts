import { fork, type ChildProcess } from 'node:child_process';
import { INPUT_LIMITS } from '../../input-limits.ts';
import {
  PROTOCOL_VERSION,
  type ExpectRequest,
  type MeasureRequest,
  type Reply,
  type WorkroomSettings,
} from './protocol.ts';

const KEPT_COMPLAINT = 2000;

/**
 * For the allocator of glibc (mallopt(3)); others do not look at it. The models and the decoder take and free many
 * megabytes for every photo: left to itself it gives them back to the system and faults each page in again, and it keeps
 * what is free apart for every thread.
 */
const ALLOCATOR = {
  MALLOC_ARENA_MAX: '1',
  MALLOC_MMAP_THRESHOLD_: String(32 * 2 ** 20),
  MALLOC_TRIM_THRESHOLD_: String(256 * 2 ** 20),
};

/** The process ended before it answered. */
export class WorkroomDied extends Error {
  /** It was closed by its owner, so asking again would be wrong. */
  readonly wasClosed: boolean;

  constructor(how: string, complaint: string, wasClosed = false) {
    super(`The workroom stopped (${how}).${complaint === '' ? '' : ` It said: ${complaint}`}`);
    this.name = 'WorkroomDied';
    this.wasClosed = wasClosed;
  }
}

/** One workroom process, started when it is first asked and again after it has died. */
export class Workroom {
  readonly #script: string;
  readonly #settings: WorkroomSettings;
  #child: ChildProcess | undefined;
  #complaint = '';

  /** @param script the built `workroom.js` */
  constructor(script: string, settings: WorkroomSettings) {
    this.#script = script;
    this.#settings = settings;
  }

  /**
   * Sends one request and waits for its reply. Never call it again before it has settled.
   * @throws WorkroomDied when the process ends, hangs or is closed before it has replied
   */
  ask(request: MeasureRequest): Promise<Reply> {
    const child = this.#start();
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => child.kill('SIGKILL'), INPUT_LIMITS.measureSeconds.most * 1000);
      const onMessage = (reply: Reply): void => {
        if (reply.kind === 'ready') {
          if (reply.protocol === PROTOCOL_VERSION) return;
          settle();
          this.close();
          reject(new WorkroomDied('it is of another version; build again', ''));
        } else if (reply.id === request.id) {
          settle();
          resolve(reply);
        }
      };
      const onGone = (how: string): void => {
        settle();
        const wasClosed = this.#child !== child;
        if (!wasClosed) this.#child = undefined;
        reject(new WorkroomDied(how, this.#complaint.trim(), wasClosed));
      };
      const onExit = (code: number | null, signal: string | null): void => {
        onGone(signal ?? `exit code ${code ?? 'unknown'}`);
      };
      const onError = (error: Error): void => {
        onGone(error.message);
      };
      const settle = (): void => {
        clearTimeout(timer);
        child.off('message', onMessage).off('exit', onExit).off('error', onError);
      };
      child.on('message', onMessage).once('exit', onExit).once('error', onError);
      child.send(request);
    });
  }

  /** Tells a process that is at work which photo it is most likely asked for next, so that it can read it meanwhile. */
  expect(path: string): void {
    const request: ExpectRequest = { kind: 'expect', path };
    // It may be dying: whoever asked it for a photo learns of that.
    if (this.#child?.connected === true) this.#child.send(request, () => undefined);
  }

  /** The process's id while it runs. */
  get processId(): number | undefined {
    return this.#child?.pid;
  }

  close(): void {
    this.#child?.kill('SIGKILL');
    this.#child = undefined;
  }

  #start(): ChildProcess {
    if (this.#child?.connected === true && this.#child.exitCode === null) return this.#child;
    this.#complaint = '';
    const child = fork(this.#script, [JSON.stringify(this.#settings)], {
      execArgv: [],
      env: { ...ALLOCATOR, ...process.env },
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    // A write to a process that is just dying fails; its exit tells the same.
    child.on('error', () => undefined);
    child.stderr?.setEncoding('utf8').on('data', (text: string) => {
      this.#complaint = (this.#complaint + text).slice(-KEPT_COMPLAINT);
    });
    this.#child = child;
    return child;
  }
}
