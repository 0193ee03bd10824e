import type { Memento } from 'vscode';
import { commands } from 'vscode';
import { SWITCHES } from '../panel/messages.ts';
import { CuttingMat, type MatTools } from './cutting-mat.ts';
import { documentInView, isManifest } from './manifest-files.ts';
import { MatPeople } from './mat-people.ts';
import { MatSwitches } from './mat-switches.ts';
import type { Part } from './part.ts';

/** The command that opens the mat (there is one mat), and one for each of its switches. */
export function offerMat(tools: MatTools, memory: Memento): Part[] {
  let mat: CuttingMat | undefined;
  const switches = new MatSwitches(memory);
  const people = new MatPeople();
  const tellOpen = (isOpen: boolean): void => void commands.executeCommand('setContext', 'selvedge.matOpen', isOpen);
  return [
    commands.registerCommand('selvedge.cuttingMat', () => {
      const document = documentInView();
      if (!document || !isManifest(document)) return;
      if (mat) {
        mat.reveal(document);
        return;
      }
      const opened = new CuttingMat(document, tools, people, switches);
      mat = opened;
      tellOpen(true);
      opened.onDidDispose(() => {
        mat = undefined;
        tellOpen(false);
        opened.dispose();
      });
    }),
    ...SWITCHES.map((which) => commands.registerCommand(`selvedge.mat.${which}`, () => switches.turn(which))),
    switches,
    { dispose: () => mat?.dispose() },
  ];
}
