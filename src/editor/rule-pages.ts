import { Uri } from 'vscode';
import { RULES } from '../rules/index.ts';

/** The page of each rule, inside the extension. */
export class RulePages {
  readonly #folder: Uri;

  constructor(extensionFolder: Uri) {
    this.#folder = extensionFolder;
  }

  of(rule: string): Uri {
    const isAboutCrop = RULES.some(({ id }) => id === rule);
    const path = isAboutCrop ? ['rules', rule, 'README.md'] : ['session', 'pages', `${rule}.md`];
    return Uri.joinPath(this.#folder, 'src', ...path);
  }
}
