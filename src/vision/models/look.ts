import type { Grid } from '../image/grid.ts';
import type { Pyramid } from '../image/pyramid.ts';
import { giveMemoryBack, takeMemory } from '../image/spare-memory.ts';
import type { Beyond } from '../image/walk.ts';
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
  const memory = takeMemory(3 * grid.width * grid.height);
  const input =
    MODEL_INPUTS[name] === 'bytes' ? bytes(picture, grid, beyond, memory) : units(picture, grid, beyond, memory);
  const outputs = await models.run(name, input);
  giveMemoryBack(memory);
  return outputs;
}

/** Colours as whole numbers from 0 to 255. */
function bytes(picture: Pyramid, grid: Grid, beyond: Beyond, memory: Float32Array): TensorValue {
  const values = new Int32Array(memory.buffer, memory.byteOffset, memory.length);
  picture.writeBytes(grid, beyond, values);
  return { type: 'int32', shape: shapeOf(grid), values };
}

/** Colours as numbers from 0 to 1. */
function units(picture: Pyramid, grid: Grid, beyond: Beyond, memory: Float32Array): TensorValue {
  picture.writeUnits(grid, beyond, 255, memory);
  return { type: 'float32', shape: shapeOf(grid), values: memory };
}

function shapeOf({ width, height }: Grid): readonly number[] {
  return [1, height, width, 3];
}
