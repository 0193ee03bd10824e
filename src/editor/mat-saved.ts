import { readFile } from 'node:fs/promises';
import type { TextDocument } from 'vscode';
import type { Size } from '../geometry/shapes.ts';
import type { Manifest } from '../manifest/manifest.ts';
import { parseManifest } from '../manifest/parse.ts';
import type { SavedCrop } from '../panel/messages.ts';
import { RULE_CATALOGUE } from '../session/file-rules.ts';
import { cropOf, degreesOf } from '../session/frame-scene.ts';

/** The crops of a manifest as it was last saved, while it has unsaved changes. */
export class SavedCrops {
  #text: string | undefined;
  #manifest: Manifest | undefined;

  async find(document: TextDocument, name: string, photo: Size): Promise<SavedCrop | undefined> {
    if (!document.isDirty) return undefined;
    const text = await readFile(document.uri.fsPath, 'utf8').catch(() => undefined);
    if (text === undefined) return undefined;
    if (text !== this.#text) {
      this.#text = text;
      this.#manifest = parseManifest(text, RULE_CATALOGUE);
    }
    const frame = this.#manifest?.frames.find((each) => each.name === name);
    return frame && { crop: cropOf(frame, photo), degrees: degreesOf(frame) };
  }
}
