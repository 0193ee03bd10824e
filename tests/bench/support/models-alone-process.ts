import { decodePhoto } from '../../../src/photos/decode.ts';
import { LONG_EDGE, measurePixels } from '../../../src/vision/measure.ts';
import { ModelSet } from '../../../src/vision/models/model-set.ts';
import { chooseRuntime } from '../../../src/vision/runtime/choose.ts';
import type { LoadedModel, Runtime, RuntimeKind, TensorValue } from '../../../src/vision/runtime/runtime.ts';
import { MODELS_FOLDER } from '../../truth/support/measured.ts';

/*
 * A process of the bench: decoding photos and running the models on the inputs that measuring gave them, with nothing
 * around. It says `ready` when it knows the inputs; then it is sent the number of a photo and answers `done`.
 */

interface Call {
  readonly model: LoadedModel;
  readonly input: TensorValue;
}

const [runtime, ...paths] = process.argv.slice(2) as [RuntimeKind, ...string[]];
const calls = await recordedCalls(await chooseRuntime(runtime));
process.on('message', (photo: number) => void replay(photo));
process.send?.('ready');

/** What the models are asked for each photo. */
async function recordedCalls(loaded: Runtime): Promise<Call[][]> {
  let ofPhoto: Call[] = [];
  const recorder: Runtime = {
    kind: loaded.kind,
    load: async (bytes) => {
      const model = await loaded.load(bytes);
      return {
        run: (input) => {
          ofPhoto.push({ model, input: copyOf(input) });
          return model.run(input);
        },
        release: () => model.release(),
      };
    },
  };
  const models = new ModelSet(recorder, MODELS_FOLDER);
  const all: Call[][] = [];
  for (const path of paths) {
    ofPhoto = [];
    const { pixels } = await decodePhoto(path, LONG_EDGE);
    await measurePixels(pixels, models);
    all.push(ofPhoto);
  }
  return all;
}

/** An input lies in memory that the next one is written to. */
function copyOf(input: TensorValue): TensorValue {
  return input.type === 'int32'
    ? { ...input, values: input.values.slice() }
    : { ...input, values: input.values.slice() };
}

async function replay(photo: number): Promise<void> {
  await decodePhoto(paths[photo]!, LONG_EDGE);
  for (const { model, input } of calls[photo]!) await model.run(input);
  process.send?.('done');
}
