import type { Range, TextDocument } from 'vscode';
import { EventEmitter, InlayHint, languages, workspace } from 'vscode';
import { countFindings, type Counts } from '../session/counts.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { factsOf } from '../session/frame-facts.ts';
import { countWords } from './count-words.ts';
import { factWords } from './frame-words.ts';
import { MANIFEST_FILES } from './manifest-files.ts';
import type { OpenManifests } from './open-manifests.ts';
import type { Part } from './part.ts';

const SETTING = 'selvedge.hints';

/**
 * Length, shape and pixels behind each photo's name, and what was found in the frame where the editor does not underline
 * all of it; a setting switches them off.
 */
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

/** So many findings of one text are underlined by the editor, the worst first; the lines of the others look clean. */
const MOST_UNDERLINED = 500;

function total({ errors, warnings, infos }: Counts): number {
  return errors + warnings + infos;
}

/** What a frame's line might not show. */
function foundIn(check: FrameCheck): string {
  const { errors, warnings } = countFindings([{ findings: [], frames: [check] }]);
  return errors + warnings === 0 ? '' : countWords({ errors, warnings, infos: 0 });
}

async function hintsIn(manifests: OpenManifests, document: TextDocument, range: Range): Promise<InlayHint[]> {
  if (!workspace.getConfiguration(undefined, document).get<boolean>(SETTING, true)) return [];
  const manifest = await manifests.of(document);
  if (!manifest) return [];
  const { session, latest } = manifest;
  const isCrowded = latest !== undefined && total(countFindings([latest])) > MOST_UNDERLINED;
  return manifest.framesIn(document.offsetAt(range.start), document.offsetAt(range.end)).flatMap((check) => {
    const facts = factWords(factsOf(session, check, manifest.sizeOf(check.frame.photo.value)));
    const words = [facts, isCrowded ? foundIn(check) : ''].filter((each) => each !== '');
    if (words.length === 0) return [];
    const hint = new InlayHint(document.positionAt(check.frame.photo.range.end), words.join(', '));
    hint.paddingLeft = true;
    return [hint];
  });
}
