import { PhotoError } from '../../photos/photo-error.ts';
import { measurePhoto, readPhoto, type ReadPhoto } from '../measure.ts';
import { ModelSet } from '../models/model-set.ts';
import { askedRuntime, chooseRuntime } from '../runtime/choose.ts';
import {
  PROTOCOL_VERSION,
  type ExpectRequest,
  type MeasureRequest,
  type Reply,
  type WorkroomSettings,
} from './protocol.ts';

/*
 * The workroom: the child process that touches pixels. It answers one request at a time and holds nothing between
 * them but the models and the photo that is likely to come next: decoding has threads of its own, and goes on while the
 * models keep this one busy.
 */

const settings = JSON.parse(process.argv[2] ?? '{}') as WorkroomSettings;
let models: Promise<ModelSet> | undefined;
let reading: Promise<unknown> = Promise.resolve();
let expected: { readonly path: string; readonly photo: Promise<ReadPhoto> } | undefined;

process.on('message', (request: MeasureRequest | ExpectRequest) => {
  if (request.kind === 'expect') readAhead(request.path);
  else void answer(request).then(send);
});
// The parent decides when to stop: an interrupt from the keyboard reaches the whole process group.
process.on('SIGINT', () => undefined);
process.on('disconnect', () => {
  process.exit(0);
});
send({ kind: 'ready', protocol: PROTOCOL_VERSION });

async function answer({ id, path, photo }: MeasureRequest): Promise<Reply> {
  try {
    models ??= chooseRuntime(settings.runtime ?? askedRuntime(process.env)).then(
      (runtime) => new ModelSet(runtime, settings.modelsFolder),
    );
    const options = { models: await models, photo, version: settings.version };
    const people = await measurePhoto(path, options, takePhoto(path));
    return { kind: 'measured', id, people };
  } catch (error) {
    const problem = error instanceof PhotoError ? error.problem : 'internal';
    return { kind: 'failed', id, problem, message: error instanceof Error ? error.message : String(error) };
  }
}

/** Begins when the photo that is being measured has been read: that one is waited for. */
function readAhead(path: string): void {
  const photo = reading.then(() => readPhoto(path));
  // What is wrong with it is told when it is asked for.
  photo.catch(() => undefined);
  expected = { path, photo };
}

function takePhoto(path: string): Promise<ReadPhoto> {
  const photo = expected?.path === path ? expected.photo : readPhoto(path);
  expected = undefined;
  reading = photo.catch(() => undefined);
  return photo;
}

function send(reply: Reply): void {
  process.send?.(reply);
}
