import { join } from 'node:path';
import { GENERATOR } from '../report/html/page.ts';
import { printable } from '../report/printable.ts';
import { formatReviewJson } from '../report/review/json.ts';
import { formatReviewMarkdown, MARKDOWN_MARK } from '../report/review/markdown.ts';
import { formatReviewPage } from '../report/review/page.ts';
import { reviewNotes, reviewSummary } from '../report/review/words.ts';
import { findManifest, manifestOf } from '../session/find-manifest.ts';
import { prepareFolder, writeOwnFile } from '../session/own-files.ts';
import { openSessionAt } from '../session/review/past-session.ts';
import { bringsFindings, reviewSince } from '../session/review/review.ts';
import { reviewPictures } from '../session/review/review-pictures.ts';
import { photoStates } from '../session/photo-states.ts';
import { pictureOf } from '../session/pictures.ts';
import type { Session } from '../session/session.ts';
import { PHOTOS_OPTION } from './arguments.ts';
import { EXIT } from './exit.ts';
import { openReadable } from './open-sessions.ts';
import { showProgress } from './progress.ts';
import { requireFrames } from './require-frames.ts';
import type { AddCommand } from './run.ts';

interface Options {
  readonly photos?: string;
  readonly since: string;
  readonly at?: string;
  readonly to: string;
}

const FILES = {
  page: { name: 'review.html', mark: GENERATOR },
  comment: { name: 'review.md', mark: MARKDOWN_MARK },
  data: { name: 'review.json', mark: '"selvedge":' },
} as const;

export const reviewCommand: AddCommand = (program, streams, done) => {
  program
    .command('review')
    .description('Show what became of the crops since a git revision: a page, a comment for a pull request, and JSON.')
    .argument('<manifest>', 'the session’s manifest, such as crops.yaml, or a folder that has a crops.yaml')
    .requiredOption('--since <revision>', 'a git revision to compare with, such as main or HEAD~1')
    .option('--at <revision>', 'take the crops from this revision, not from the files here; works in a bare repository')
    .requiredOption(
      '--to <dir>',
      'where review.html, review.md and review.json are written; never a folder with photos',
    )
    .option(...PHOTOS_OPTION)
    .addHelpText('after', '\nExit codes: 0 no new warning or error, 1 the change brings some, 2 a bad call.')
    .action(async (path: string, { photos, since, at, to }: Options) => {
      const session = await opened(path, photos, at);
      const folder = await prepareFolder(to, Object.values(FILES), session.photosFolder);
      const { signal } = streams;
      const review = await reviewSince(session, since, { lookAtPhotos: photoStates, until: at, signal });
      const bar = showProgress(streams, 'drawing', 'frames');
      const pictures = await reviewPictures(review, pictureOf, { signal, onProgress: bar.update }).finally(bar.stop);
      await writeOwnFile(folder, FILES.page.name, await formatReviewPage(review, pictures));
      await writeOwnFile(folder, FILES.comment.name, formatReviewMarkdown(review));
      await writeOwnFile(folder, FILES.data.name, formatReviewJson(review));
      const lines = [
        reviewSummary(review),
        ...reviewNotes(review),
        `written: ${join(to, FILES.page.name)}, ${FILES.comment.name} and ${FILES.data.name}`,
      ];
      streams.stdout.write(lines.map((line) => `${printable(line)}\n`).join(''));
      done(bringsFindings(review) ? EXIT.findings : EXIT.clean);
    });
};

async function opened(path: string, photosFolder: string | undefined, at: string | undefined): Promise<Session> {
  if (at === undefined) return openReadable(await findManifest(path), { photosFolder });
  const session = await openSessionAt(await manifestOf(path), at, { photosFolder });
  requireFrames(session);
  return session;
}
