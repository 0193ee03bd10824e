import description from '../../../package.json' with { type: 'json' };
import { makeDetail } from '../../photos/detail.ts';
import { imageLibrary } from '../../photos/open-photo.ts';
import { makeThumbnail } from '../../photos/thumbnail.ts';
import { initSession } from '../init.ts';
import { measureSession } from '../measure.ts';
import { photoStates } from '../photo-states.ts';
import { openSessionText } from '../session.ts';
import { PHOTO_ROOM_PROTOCOL, type Exchanges, type FromPhotoRoom, type Request, type ToPhotoRoom } from './protocol.ts';
import { PictureCache } from './picture-cache.ts';

/*
 * The editor's own workroom: a child process in a plain Node that looks at photos, makes thumbnails and has people
 * measured. The editor itself never loads an image library.
 */

/** Some twenty thousand bytes each. */
const thumbnails = new PictureCache('thumbnails', 4000, makeThumbnail);
/** Some three hundred thousand bytes each. */
const details = new PictureCache('details', 400, makeDetail);
const underWay = new Map<number, AbortController>();

process.on('message', (message: ToPhotoRoom) => {
  if (message.task === 'stop') underWay.get(message.id)?.abort();
  else void answer(message);
});
process.on('SIGINT', () => undefined);
process.on('disconnect', () => {
  process.exit(0);
});
send({ kind: 'ready', protocol: PHOTO_ROOM_PROTOCOL });

async function answer(request: Request): Promise<void> {
  const { id } = request;
  const stop = new AbortController();
  underWay.set(id, stop);
  try {
    send({ kind: 'answer', id, answer: await work(request, stop.signal) });
  } catch (error) {
    send({ kind: 'failed', id, message: error instanceof Error ? error.message : String(error) });
  } finally {
    underWay.delete(id);
  }
}

async function work(request: Request, signal: AbortSignal): Promise<Exchanges[Request['task']]['answer']> {
  switch (request.task) {
    case 'states':
      return look(request.question, signal);
    case 'thumbnail': {
      const { path, ...options } = request.question;
      return { file: await thumbnails.fileFor(path, options) };
    }
    case 'detail': {
      const { path, ...options } = request.question;
      return { file: await details.fileFor(path, options) };
    }
    case 'measure': {
      const { path, text, photosFolder } = request.question;
      const session = await openSessionText(path, text, { photosFolder });
      const onProgress = (progress: { done: number; total: number }): void => {
        send({ kind: 'progress', id: request.id, progress });
      };
      return measureSession(session, { version: description.version, signal, onProgress });
    }
    case 'init':
      return initSession(request.question.folder);
  }
}

async function look(
  { folder, photos }: Exchanges['states']['question'],
  signal: AbortSignal,
): Promise<Exchanges['states']['answer']> {
  const asked = {
    manifest: { frames: photos.map(({ photo }) => ({ photo: { value: photo } })) },
    photosFolder: folder,
    people: { photos: new Map(photos.map(({ photo, digest }) => [photo, digest === undefined ? {} : { digest }])) },
  };
  const states = await photoStates(asked, signal);
  // Somebody who has a session open will look at its pictures; if this fails, who asks for one is told.
  imageLibrary().catch(() => undefined);
  return [...states];
}

function send(message: FromPhotoRoom): void {
  process.send?.(message);
}
