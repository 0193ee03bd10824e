import { MAT_PROTOCOL, type Direction, type FromMat, type Switch, type ToMat } from '../messages.ts';
import { byId } from '../page/elements.ts';
import { Mat } from './mat.ts';
import { addStageMoves, moveByKey } from './stage-moves.ts';

declare function acquireVsCodeApi(): { postMessage(message: FromMat): void };

const editor = acquireVsCodeApi();
const mat = new Mat((message) => {
  editor.postMessage(message);
});
addStageMoves(mat.stage);

const switches = [...document.querySelectorAll<HTMLInputElement>('#switches input')];
for (const each of switches) {
  each.addEventListener('change', () => {
    const on = switches.filter(({ checked }) => checked).map(({ value }) => value as Switch);
    mat.switches = on;
    editor.postMessage({ kind: 'switches', on });
  });
}

function go(to: Direction): void {
  mat.letGo();
  editor.postMessage({ kind: 'go', to });
}
for (const [id, to] of [
  ['go-previous', 'previous'],
  ['go-next', 'next'],
  ['go-found', 'next-found'],
] as const satisfies readonly (readonly [string, Direction])[]) {
  byId(id).addEventListener('click', () => {
    go(to);
  });
}

/** What the keys of the editor mean while the mat has the focus: they are about the text. */
function textKey({ ctrlKey, metaKey, altKey, shiftKey, key }: KeyboardEvent): 'undo' | 'redo' | 'save' | undefined {
  if (!(ctrlKey || metaKey) || altKey) return undefined;
  switch (key.toLowerCase()) {
    case 'z':
      return shiftKey ? 'redo' : 'undo';
    case 'y':
      return 'redo';
    case 's':
      return shiftKey ? undefined : 'save';
    default:
      return undefined;
  }
}

document.addEventListener('keydown', (event) => {
  const { target } = event;
  const isTyping = target instanceof HTMLInputElement || target instanceof HTMLSelectElement;
  const kind = target instanceof HTMLInputElement && target.type === 'text' ? undefined : textKey(event);
  if (kind) {
    mat.letGo();
    editor.postMessage({ kind });
  } else if (event.key === 'PageDown') go('next');
  else if (event.key === 'PageUp') go('previous');
  else if (isTyping || !moveByKey(mat.stage, event)) return;
  event.preventDefault();
  event.stopPropagation();
});

window.addEventListener('message', ({ data }: MessageEvent<ToMat>) => {
  switch (data.kind) {
    case 'picture':
      void mat.showPicture(data);
      break;
    case 'nothing':
      mat.showNothing(data.reason);
      break;
    case 'notice':
      mat.showNotice(data.text);
      break;
    case 'focus':
      // The editor believes at times that the page never lost it.
      window.focus();
      if (document.activeElement instanceof HTMLElement) document.activeElement.focus({ preventScroll: true });
      break;
    case 'switches':
      for (const each of switches) each.checked = data.on.includes(each.value as Switch);
      mat.switches = data.on;
      break;
    case 'frame':
      if (data.protocol === MAT_PROTOCOL) mat.show(data.frame);
      else mat.showNothing('The mat is of another version. Close it and open it again.');
  }
});
editor.postMessage({ kind: 'ready' });
