/** The part of the TensorFlow.js graph-model file format that the converter reads (`model.json`). */
export interface GraphModelFile {
  readonly modelTopology: { readonly node: readonly GraphNode[] };
  readonly weightsManifest: readonly WeightsGroup[];
  readonly signature?: { readonly outputs?: Readonly<Record<string, { readonly name: string }>> };
}

export interface GraphNode {
  readonly name: string;
  readonly op: string;
  /** Names of the nodes whose results come in; `name:2` is a node's third result, `^name` only orders. */
  readonly input?: readonly string[];
  readonly attr?: Readonly<Record<string, GraphAttribute>>;
}

/** Numbers may be written as text (64 bit integers in JSON); texts are base64. */
export interface GraphAttribute {
  readonly i?: string | number;
  readonly b?: boolean;
  readonly s?: string;
  readonly type?: string;
  readonly shape?: { readonly dim?: readonly { readonly size: string | number }[] };
  readonly list?: { readonly i?: readonly (string | number)[]; readonly s?: readonly string[] };
}

export interface WeightsGroup {
  readonly paths: readonly string[];
  readonly weights: readonly WeightEntry[];
}

export interface WeightEntry {
  readonly name: string;
  readonly shape: readonly number[];
  readonly dtype: string;
  readonly quantization?: { readonly dtype: string; readonly scale?: number; readonly min?: number };
}

export function numberOf(node: GraphNode, attribute: string, fallback = 0): number {
  return Number(node.attr?.[attribute]?.i ?? fallback);
}

export function numbersOf(node: GraphNode, attribute: string): number[] {
  return (node.attr?.[attribute]?.list?.i ?? []).map(Number);
}

export function flagOf(node: GraphNode, attribute: string): boolean {
  return node.attr?.[attribute]?.b ?? false;
}

export function textOf(node: GraphNode, attribute: string): string {
  return decodeText(node.attr?.[attribute]?.s ?? '');
}

export function textsOf(node: GraphNode, attribute: string): string[] {
  return (node.attr?.[attribute]?.list?.s ?? []).map(decodeText);
}

function decodeText(base64: string): string {
  return Buffer.from(base64, 'base64').toString('utf8');
}

/** The node's data inputs, without the ones that only order the run. */
export function dataInputsOf(node: GraphNode): string[] {
  return (node.input ?? []).filter((name) => !name.startsWith('^'));
}

/** The name under which a result is kept: the first result of a node goes by the node's own name. */
export function resultName(input: string): string {
  return input.replace(/:0$/, '');
}

export function nodeNameOf(input: string): string {
  return input.replace(/^\^/, '').replace(/:\d+$/, '');
}

/** The names of the results that the model gives, in the order of its signature. */
export function outputNamesOf(file: GraphModelFile): string[] {
  const named = Object.values(file.signature?.outputs ?? {}).map((output) => resultName(output.name));
  if (named.length > 0) return named;
  const nodes = file.modelTopology.node;
  const used = new Set(nodes.flatMap((node) => node.input ?? []).map(nodeNameOf));
  return nodes.filter((node) => !used.has(node.name)).map((node) => node.name);
}

/** The nodes that the outputs need, each after the nodes it needs. */
export function inRunningOrder(file: GraphModelFile, outputs: readonly string[]): GraphNode[] {
  const byName = new Map(file.modelTopology.node.map((node) => [node.name, node]));
  const seen = new Set<string>();
  const order: GraphNode[] = [];
  const visit = (input: string): void => {
    const name = nodeNameOf(input);
    if (seen.has(name)) return;
    seen.add(name);
    const node = byName.get(name);
    if (node === undefined) throw new Error(`The model names a node "${name}" that it does not have.`);
    node.input?.forEach(visit);
    order.push(node);
  };
  outputs.forEach(visit);
  return order;
}
