import { existsSync } from 'node:fs';

import { DocumentLink, languages, Uri, workspace } from 'vscode';
import { MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifests } from './open-manifests.ts';
import { rangeIn } from './places.ts';
import { photoPathOf } from './thumbnails.ts';
import type { Part } from './part.ts';

/** A link that is looked for on the disk only when somebody points at it. */
class PhotoLink extends DocumentLink {
  readonly photo: string;

  constructor(range: DocumentLink['range'], photo: string) {
    super(range);
    this.photo = photo;
    this.tooltip = 'Open the photo';
  }
}

/** Each photo's name opens the photo, where that lies inside the photos folder. */
export function linkPhotos(manifests: OpenManifests): Part {
  return languages.registerDocumentLinkProvider(MANIFEST_FILES, {
    provideDocumentLinks: async (document) => {
      const manifest = await manifests.of(document);
      if (!manifest || !workspace.isTrusted) return [];
      return manifest.session.manifest.frames.map(
        ({ photo }) => new PhotoLink(rangeIn(document, photo.range), `${document.uri.toString()}\n${photo.value}`),
      );
    },
    resolveDocumentLink: async (link: PhotoLink) => {
      const [uri, photo] = link.photo.split('\n', 2);
      const document = workspace.textDocuments.find((each) => each.uri.toString() === uri);
      const session = document && manifests.opened(document)?.session;
      const path = session && photo !== undefined ? await photoPathOf(session, photo) : undefined;
      if (path !== undefined && existsSync(path)) link.target = Uri.file(path);
      return link;
    },
  });
}
