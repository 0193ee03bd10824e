import type { Grid } from '../image/grid.ts';
import type { Beyond, Pyramid } from '../image/pyramid.ts';
import { giveMemoryBack } from '../image/spare-memory.ts';
import type { TensorValue } from '../runtime/runtime.ts';
import { MODEL_INPUTS, type ModelName } from './catalogue.ts';
import type { ModelOutputs, ModelSet } from './model-set.ts';

/** What a model says about the part of the picture that the grid lies on. */
export async function look(
  models: ModelSet,
  name: ModelName,
  picture: Pyramid,
  grid: Grid,
  beyond: Beyond = 'black',
): Promise<ModelOutputs> {
  const samples = picture.sample(grid, beyond);
  const shape = [1, grid.height, grid.width, 3];
  const outputs = await models.run(
    name,
    MODEL_INPUTS[name] === 'bytes' ? bytes(samples, shape) : units(samples, shape),
  );
  giveMemoryBack(samples);
  return outputs;
}

/** Samples (0 to 255) as whole numbers, written over the samples: both have four bytes a number. */
function bytes(samples: Float32Array, shape: readonly number[]): TensorValue {
  const values = new Int32Array(samples.buffer, samples.byteOffset, samples.length);
  for (let index = 0; index < values.length; index++) values[index] = samples[index]! + 0.5;
  return { type: 'int32', shape, values };
}

/** Samples (0 to 255) as numbers from 0 to 1, written over the samples. */
function units(samples: Float32Array, shape: readonly number[]): TensorValue {
  for (let index = 0; index < samples.length; index++) samples[index]! /= 255;
  return { type: 'float32', shape, values: samples };
}
