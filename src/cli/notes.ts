import { formatNotes } from '../report/notes.ts';
import { notesOf } from '../session/notes/notes.ts';
import { findManifest } from '../session/find-manifest.ts';
import { MANIFEST_HELP, PHOTOS_OPTION } from './arguments.ts';
import { EXIT } from './exit.ts';
import { openReadable } from './open-sessions.ts';
import type { AddCommand } from './run.ts';

interface Options {
  readonly photos?: string;
}

export const notesCommand: AddCommand = (program, streams, done) => {
  program
    .command('notes')
    .description('Say, as Markdown, what the session teaches for the next: levelling, headroom, hands, feet, lengths.')
    .argument('<manifest>', MANIFEST_HELP)
    .option(...PHOTOS_OPTION)
    .action(async (path: string, options: Options) => {
      const session = await openReadable(await findManifest(path), { photosFolder: options.photos });
      streams.stdout.write(formatNotes(await notesOf(session, streams.signal)));
      done(EXIT.clean);
    });
};
