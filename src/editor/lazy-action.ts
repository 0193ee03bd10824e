import type { CodeActionKind, WorkspaceEdit } from 'vscode';
import { CodeAction } from 'vscode';

/** An action whose edit is worked out only when somebody chooses it. */
export class LazyAction extends CodeAction {
  readonly make: (signal: AbortSignal) => Promise<WorkspaceEdit | undefined>;

  constructor(title: string, kind: CodeActionKind, make: (signal: AbortSignal) => Promise<WorkspaceEdit | undefined>) {
    super(title, kind);
    this.make = make;
  }
}
