import { MAT_PROTOCOL, type Direction, type FromMat, type ToMat } from '../messages.ts';
import { byId } from './elements.ts';
import { Mat } from './mat.ts';

declare function acquireVsCodeApi(): {
  postMessage(message: FromMat): void;
  getState(): unknown;
  setState(state: unknown): void;
};

const editor = acquireVsCodeApi();
const mat = new Mat((message) => {
  editor.postMessage(message);
});

const switches = [...document.querySelectorAll<HTMLInputElement>('#switches input')];
const kept = editor.getState();
if (Array.isArray(kept)) for (const each of switches) each.checked = kept.includes(each.value);
const takeSwitches = (): void => {
  const on = switches.filter(({ checked }) => checked).map(({ value }) => value);
  mat.switches = new Set(on);
  editor.setState(on);
  mat.draw();
};
for (const each of switches) each.addEventListener('change', takeSwitches);
takeSwitches();

for (const [id, to] of [
  ['go-previous', 'previous'],
  ['go-next', 'next'],
  ['go-found', 'next-found'],
] as const satisfies readonly (readonly [string, Direction])[]) {
  byId(id).addEventListener('click', () => {
    editor.postMessage({ kind: 'go', to });
  });
}

document.addEventListener('keydown', (event) => {
  if ((event.ctrlKey || event.metaKey) && !event.shiftKey && event.key.toLowerCase() === 'z') {
    event.preventDefault();
    event.stopPropagation();
    editor.postMessage({ kind: 'undo' });
  }
});

window.addEventListener('message', ({ data }: MessageEvent<ToMat>) => {
  if (data.kind === 'picture') mat.showPicture(data.index, data.address);
  else if (data.kind === 'nothing') mat.showNothing(data.reason);
  else if (data.protocol === MAT_PROTOCOL) mat.show(data.frame);
  else mat.showNothing('The mat is of another version. Close it and open it again.');
});
editor.postMessage({ kind: 'ready' });
