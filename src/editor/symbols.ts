import type { TextDocument } from 'vscode';
import { DocumentSymbol, languages, SymbolKind } from 'vscode';
import type { Manifest, TextRange } from '../manifest/manifest.ts';
import { MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifests } from './open-manifests.ts';
import { rangeIn } from './places.ts';
import { plainLine } from './plain-text.ts';
import type { Part } from './part.ts';

/** One entry of the outline per output and per frame; going to a frame by its name comes from here. */
export function outline(manifests: OpenManifests): Part {
  return languages.registerDocumentSymbolProvider(MANIFEST_FILES, {
    provideDocumentSymbols: async (document) => {
      const manifest = (await manifests.of(document))?.session.manifest;
      return manifest && symbolsOf(document, manifest);
    },
  });
}

function symbolsOf(document: TextDocument, { deliver, frames }: Manifest): DocumentSymbol[] {
  const symbol = (name: string, detail: string, kind: SymbolKind, range: TextRange, key: TextRange): DocumentSymbol =>
    new DocumentSymbol(
      // A symbol without a name is refused.
      plainLine(name, 100) || '?',
      detail,
      kind,
      rangeIn(document, { start: Math.min(range.start, key.start), end: Math.max(range.end, key.end) }),
      rangeIn(document, key),
    );
  return [
    ...[...deliver.values()].map(({ id, range, key }) => symbol(id, 'output', SymbolKind.Package, range, key)),
    ...frames.map(({ name, range, photo, length, final }) => {
      const detail = [length?.value, final?.value === true ? 'approved' : undefined].filter((word) => word).join(', ');
      return symbol(name, detail, SymbolKind.File, range, photo.range);
    }),
  ];
}
