import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { transpose, type Tensor } from './weights.ts';

const tensors = fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 4, maxLength: 4 }).map((shape): Tensor => {
  const count = shape.reduce((product, size) => product * size, 1);
  return { shape, data: { kind: 'float32', values: Float32Array.from({ length: count }, (_, index) => index) } };
});

describe('transpose', () => {
  it('moves the number at (a, b, c, d) to where the order says', () => {
    const orders = fc.shuffledSubarray([0, 1, 2, 3], { minLength: 4, maxLength: 4 });
    fc.assert(
      fc.property(tensors, orders, fc.array(fc.nat(), { minLength: 4, maxLength: 4 }), (tensor, order, numbers) => {
        const place = numbers.map((number, axis) => number % tensor.shape[axis]!);
        const turned = transpose(tensor, order);
        const turnedPlace = order.map((axis) => place[axis]!);
        expect(turned.data.values[indexOf(turned.shape, turnedPlace)]).toBe(
          tensor.data.values[indexOf(tensor.shape, place)],
        );
      }),
    );
  });
});

function indexOf(shape: readonly number[], place: readonly number[]): number {
  return place.reduce((index, position, axis) => index * shape[axis]! + position, 0);
}
