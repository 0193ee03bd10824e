import type { FromSheet, ToSheet } from '../sheet-messages.ts';
import { Sheet, type KeptState } from './sheet.ts';

declare function acquireVsCodeApi(): {
  postMessage(message: FromSheet): void;
  getState(): unknown;
  setState(state: unknown): void;
};

const editor = acquireVsCodeApi();
const sheet = new Sheet({
  send: (message) => {
    editor.postMessage(message);
  },
  // Only this page writes it.
  kept: editor.getState() as KeptState | undefined,
  keep: (state) => {
    editor.setState(state);
  },
});

document.addEventListener('keydown', (event) => {
  const isText = event.target instanceof HTMLInputElement && event.target.type === 'search';
  if (isText || !(event.ctrlKey || event.metaKey) || event.shiftKey || event.key.toLowerCase() !== 'z') return;
  event.preventDefault();
  event.stopPropagation();
  editor.postMessage({ kind: 'undo' });
});

window.addEventListener('message', ({ data }: MessageEvent<ToSheet>) => {
  sheet.take(data);
});
editor.postMessage({ kind: 'ready' });
