import type { CancellationToken } from 'vscode';

/** The editor's way to say "never mind", as everything below the editor understands it. */
export function signalOf(token: CancellationToken): AbortSignal {
  const controller = new AbortController();
  if (token.isCancellationRequested) controller.abort();
  else
    token.onCancellationRequested(() => {
      controller.abort();
    });
  return controller.signal;
}
