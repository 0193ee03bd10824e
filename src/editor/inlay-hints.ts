import type { Range, TextDocument } from 'vscode';
import { EventEmitter, InlayHint, languages, workspace } from 'vscode';
import { factsOf } from '../session/frame-facts.ts';
import { factWords } from './frame-words.ts';
import { MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';

const SETTING = 'selvedge.hints';

/** Length, shape and pixels behind each photo's name; a setting switches them off. */
export function showHints(manifests: OpenManifests): Part[] {
  const changed = new EventEmitter<void>();
  const fire = (): void => {
    changed.fire();
  };
  return [
    changed,
    manifests.onDidCheck(fire),
    workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration(SETTING)) fire();
    }),
    languages.registerInlayHintsProvider(MANIFEST_FILES, {
      onDidChangeInlayHints: changed.event,
      provideInlayHints: (document, range) => hintsIn(manifests, document, range),
    }),
  ];
}

async function hintsIn(manifests: OpenManifests, document: TextDocument, range: Range): Promise<InlayHint[]> {
  if (!workspace.getConfiguration(undefined, document).get<boolean>(SETTING, true)) return [];
  const manifest = await manifests.of(document);
  if (!manifest) return [];
  const { session } = manifest;
  return manifest.framesIn(document.offsetAt(range.start), document.offsetAt(range.end)).flatMap((check) => {
    const words = factWords(factsOf(session, check, manifest.sizeOf(check.frame.photo.value)));
    if (words === '') return [];
    const hint = new InlayHint(document.positionAt(check.frame.photo.range.end), words);
    hint.paddingLeft = true;
    return [hint];
  });
}
