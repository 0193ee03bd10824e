import type { Grid } from '../image/grid.ts';
import type { Beyond, Pyramid } from '../image/pyramid.ts';
import { giveMemoryBack, takeMemory } from '../image/spare-memory.ts';
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
  picture.sampleRows(grid, beyond, (row, at) => {
    writeBytes(row, values, at);
  });
  return { type: 'int32', shape: shapeOf(grid), values };
}

/** Colours as numbers from 0 to 1. */
function units(picture: Pyramid, grid: Grid, beyond: Beyond, memory: Float32Array): TensorValue {
  picture.sampleRows(grid, beyond, (row, at) => {
    writeUnits(row, memory, at);
  });
  return { type: 'float32', shape: shapeOf(grid), values: memory };
}

function writeBytes(row: Float32Array, to: Int32Array, at: number): void {
  for (let index = 0; index < row.length; index++) to[at + index] = (row[index]! + 0.5) | 0;
}

function writeUnits(row: Float32Array, to: Float32Array, at: number): void {
  for (let index = 0; index < row.length; index++) to[at + index] = row[index]! / 255;
}

function shapeOf({ width, height }: Grid): readonly number[] {
  return [1, height, width, 3];
}
