import { commands, Uri } from 'vscode';
import { ContactSheet, type SheetTools } from './contact-sheet.ts';
import { documentInView, isManifest } from './manifest-files.ts';
import type { Part } from './part.ts';

/** The command that opens the sheet of a session; there is one for each. It ends when the first frames are drawn. */
export function offerSheet(tools: SheetTools): Part[] {
  const sheets = new Map<string, ContactSheet>();
  return [
    commands.registerCommand('selvedge.contactSheet', async (given: unknown) => {
      const uri = given instanceof Uri ? given : documentInView()?.uri;
      if (!uri || !isManifest({ uri })) return;
      const key = uri.toString();
      const known = sheets.get(key);
      if (known) {
        known.reveal();
        return;
      }
      const sheet = new ContactSheet(uri, tools);
      sheets.set(key, sheet);
      sheet.onDidDispose(() => {
        sheets.delete(key);
        sheet.dispose();
      });
      await sheet.drawn;
    }),
    {
      dispose: () => {
        for (const sheet of sheets.values()) sheet.dispose();
      },
    },
  ];
}
