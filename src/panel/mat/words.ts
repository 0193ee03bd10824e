import { shapeWords } from '../../geometry/shape-words.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Scene } from '../../rules/scene.ts';
import type { MatFrame } from '../messages.ts';
import { byId } from './elements.ts';
import { countWords, listFindings } from './findings-list.ts';
import type { FrameOnMat } from './frame-on-mat.ts';

/** Everything that the mat says in words; text only, whatever it is. */
export function showWords(
  frame: MatFrame,
  now?: { readonly scene: Scene; readonly findings: ReturnType<FrameOnMat['findings']>; readonly isHeld: boolean },
): void {
  setText('name', frame.name);
  setText('place', frame.place);
  setText('state', frame.isFinal ? 'approved' : '');
  byId('crop').setAttribute('aria-label', `Crop of ${frame.name}. Arrow keys move it, with Shift in larger steps.`);
  if (!now) return;
  setText('facts', factsOf(now.scene));
  const nothing = frame.isMeasured ? 'Nothing to say.' : 'Nobody has measured the people in this photo yet.';
  listFindings(byId('findings'), now.findings, nothing);
  // While something moves it is shown; said aloud only when it rests.
  byId('summary').setAttribute('aria-live', now.isHeld ? 'off' : 'polite');
  setText('summary', countWords(now.findings));
}

function setText(id: string, text: string): void {
  const element = byId(id);
  if (element.textContent !== text) element.textContent = text;
}

function factsOf({ crop, length }: Scene): string {
  const [width, height] = [Math.round(widthOf(crop)), Math.round(heightOf(crop))];
  const words = [length && LENGTH_WORDS[length], shapeWords(width, height), `${width} × ${height} px`];
  return words.filter((word) => word !== undefined).join(', ');
}
