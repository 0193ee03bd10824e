import { numbersOf, textOf, textsOf, flagOf, type GraphNode } from './graph.ts';
import { DATA_TYPE } from './onnx-schema.ts';
import type { GraphBuilder, Operator } from './builder.ts';

/** Operators on pictures: convolution, pooling, padding, enlarging. All leave channels first. */
export const PICTURE_OPERATORS: Readonly<Record<string, Operator>> = {
  Conv2D: convolution,
  _FusedConv2D: convolution,
  DepthwiseConv2dNative: depthwiseConvolution,
  FusedDepthwiseConv2dNative: depthwiseConvolution,
  MaxPool: (builder, node, inputs) => {
    pool(builder, node, inputs, 'MaxPool');
  },
  AvgPool: (builder, node, inputs) => {
    pool(builder, node, inputs, 'AveragePool');
  },
  Pad: pad,
  ResizeBilinear: resize,
  Prelu: (builder, node, [input, slope]) => {
    const result = builder.add('PRelu', [builder.channelsFirst(input!), slopeOf(builder, slope!)]);
    builder.set(node.name, result, 'channels-first');
  },
};

function convolution(builder: GraphBuilder, node: GraphNode, inputs: readonly string[]): void {
  const kernel = builder.kernel(inputs[1]!, [3, 2, 0, 1]);
  finishConvolution(builder, node, inputs, kernel, 1);
}

function depthwiseConvolution(builder: GraphBuilder, node: GraphNode, inputs: readonly string[]): void {
  const tensor = builder.constantOf(inputs[1]!);
  if (tensor?.shape[3] !== 1) throw new Error(`Only one filter a channel is supported (${node.name}).`);
  const kernel = builder.kernel(inputs[1]!, [2, 3, 0, 1]);
  finishConvolution(builder, node, inputs, kernel, tensor.shape[2]!);
}

function finishConvolution(
  builder: GraphBuilder,
  node: GraphNode,
  inputs: readonly string[],
  kernel: { name: string; height: number; width: number },
  group: number,
): void {
  const fused = textsOf(node, 'fused_ops');
  const operands = [builder.channelsFirst(inputs[0]!), kernel.name];
  const rest = inputs.slice(2);
  if (fused.includes('BiasAdd')) operands.push(builder.get(rest.shift()!).name);
  let result = builder.add('Conv', operands, {
    ...windowOf(node),
    kernel_shape: [kernel.height, kernel.width],
    group,
  });
  if (fused.includes('Relu')) result = builder.add('Relu', [result]);
  if (fused.includes('Relu6')) result = clipToSix(builder, result);
  if (fused.includes('Prelu')) result = builder.add('PRelu', [result, slopeOf(builder, rest.shift()!)]);
  builder.set(node.name, result, 'channels-first');
}

export function clipToSix(builder: GraphBuilder, input: string): string {
  return builder.add('Clip', [input, builder.scalar(0), builder.scalar(6)]);
}

function slopeOf(builder: GraphBuilder, input: string): string {
  const slope = builder.perChannel(input);
  if (slope === undefined) throw new Error(`The slope "${input}" must be constant, one number a channel.`);
  return slope;
}

function pool(builder: GraphBuilder, node: GraphNode, inputs: readonly string[], opType: string): void {
  const [, height, width] = numbersOf(node, 'ksize');
  const result = builder.add(opType, [builder.channelsFirst(inputs[0]!)], {
    ...windowOf(node),
    kernel_shape: [height!, width!],
  });
  builder.set(node.name, result, 'channels-first');
}

function windowOf(node: GraphNode): { strides: number[]; auto_pad: string } {
  const [, vertical, horizontal] = numbersOf(node, 'strides');
  return { strides: [vertical!, horizontal!], auto_pad: textOf(node, 'padding') === 'SAME' ? 'SAME_UPPER' : 'VALID' };
}

function pad(builder: GraphBuilder, node: GraphNode, [input, paddings]: readonly string[]): void {
  const p = builder.numbersOf(paddings!);
  if (p.length !== 8) throw new Error(`Only pictures can be padded (${node.name}).`);
  // Source: before and after of each axis, channels last. ONNX: all befores, then all afters, channels first.
  const order = [0, 6, 2, 4, 1, 7, 3, 5].map((index) => p[index]!);
  builder.set(
    node.name,
    builder.add('Pad', [builder.channelsFirst(input!), builder.integers(order)]),
    'channels-first',
  );
}

function resize(builder: GraphBuilder, node: GraphNode, [input, size]: readonly string[]): void {
  const picture = builder.channelsFirst(input!);
  const wanted = builder.cast(builder.get(size!).name, DATA_TYPE.int64);
  const shape = builder.add('Shape', [picture]);
  const kept = builder.add('Slice', [shape, builder.integers([0]), builder.integers([2])]);
  const full = builder.add('Concat', [kept, wanted], { axis: 0 });
  const corners = flagOf(node, 'align_corners') ? 'align_corners' : 'asymmetric';
  const result = builder.add('Resize', [picture, '', '', full], {
    mode: 'linear',
    coordinate_transformation_mode: flagOf(node, 'half_pixel_centers') ? 'half_pixel' : corners,
  });
  builder.set(node.name, result, 'channels-first');
}
