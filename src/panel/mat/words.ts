import { shapeWords } from '../../geometry/shape-words.ts';
import { heightOf, widthOf } from '../../geometry/shapes.ts';
import { LENGTH_WORDS } from '../../people/lengths.ts';
import type { Scene } from '../../rules/scene.ts';
import type { MatFrame, MatOutput } from '../messages.ts';
import type { OfferedOutput } from '../page/crop-choice.ts';
import { byId } from '../page/elements.ts';
import { SEVERITY_WORDS } from '../page/severity-icon.ts';
import { countWords } from './findings-list.ts';
import type { FoundOnMat } from './frame-on-mat.ts';

/** What a frame is called and whether it is approved; text only, whatever it is. */
export function showFrame({ name, place, output, outputs, isFinal }: MatFrame): void {
  setText('name', name);
  byId('name').title = name;
  setText('place', place);
  setText('state', isFinal ? 'approved' : '');
  byId('crop').setAttribute(
    'aria-label',
    `Crop of ${name}${output === undefined ? '' : ` for ${output}`}. Arrow keys move it, with Shift in larger steps.`,
  );
  setText('approve', isFinal ? 'Take back the approval' : 'Approve as it is');
  byId('approve').title = outputs.length > 0 ? 'The frame, with all its crops' : '';
}

/** `album, own crop, warning` */
export function offeredOutput({ id, isOwn, worst }: MatOutput): OfferedOutput {
  const words = [id, isOwn && 'own crop', worst && SEVERITY_WORDS[worst]];
  return { id, words: words.filter((word) => typeof word === 'string').join(', ') };
}

export function outputTitle({ output }: MatFrame): string {
  return output === undefined ? 'The frame’s main crop' : `The crop for ${output}; moved here, it is the frame’s own`;
}

/** What the crop comes to as it is now. */
export function showCrop(scene: Scene, findings: readonly FoundOnMat[], isHeld: boolean): void {
  setText('facts', factsOf(scene));
  // While something moves it is shown; said aloud only when it rests.
  byId('summary').setAttribute('aria-live', isHeld ? 'off' : 'polite');
  setText('summary', countWords(findings));
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
