import * as vscode from 'vscode';

const KINDS = ['showInformationMessage', 'showWarningMessage', 'showErrorMessage'] as const;

/** Hears what the extension tells the user, which is told all the same. */
export function listen(): { heard: () => readonly string[]; stop: () => void } {
  const heard: string[] = [];
  // The extension and its tests have one and the same `window`.
  const window = vscode.window as unknown as Record<string, (message: string, ...rest: unknown[]) => unknown>;
  const told = KINDS.map((kind) => [kind, window[kind]!] as const);
  for (const [kind, tell] of told) {
    window[kind] = (message, ...rest) => {
      heard.push(message);
      return tell(message, ...rest);
    };
  }
  const stop = (): void => {
    for (const [kind, tell] of told) window[kind] = tell;
  };
  return { heard: () => heard, stop };
}
