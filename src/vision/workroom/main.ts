import { PhotoError } from '../../photos/photo-error.ts';
import { measurePhoto } from '../measure.ts';
import { ModelSet } from '../models/model-set.ts';
import { askedRuntime, chooseRuntime } from '../runtime/choose.ts';
import { PROTOCOL_VERSION, type MeasureRequest, type Reply, type WorkroomSettings } from './protocol.ts';

/*
 * The workroom: the child process that touches pixels. It answers one request at a time and holds nothing between
 * them but the models.
 */

const settings = JSON.parse(process.argv[2] ?? '{}') as WorkroomSettings;
let models: Promise<ModelSet> | undefined;

process.on('message', (request: MeasureRequest) => {
  void answer(request).then(send);
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
    const people = await measurePhoto(path, { models: await models, photo, version: settings.version });
    return { kind: 'measured', id, people };
  } catch (error) {
    const problem = error instanceof PhotoError ? error.problem : 'internal';
    return { kind: 'failed', id, problem, message: error instanceof Error ? error.message : String(error) };
  }
}

function send(reply: Reply): void {
  process.send?.(reply);
}
