import type { Event, TreeDataProvider, TreeItem, TreeView } from 'vscode';
import { EventEmitter, window } from 'vscode';
import type { Part } from './part.ts';

type Filling<Node> = Omit<TreeDataProvider<Node>, 'onDidChangeTreeData'> & {
  readonly onDidChangeTreeData: Event<Node | undefined>;
};

/** A tree view that is there before what fills it: it says when it is looked at, and is filled later. */
export class LateView<Node> implements TreeDataProvider<Node>, Part {
  readonly view: TreeView<Node>;
  readonly #changed = new EventEmitter<Node | undefined>();
  readonly #onSeen: () => void;
  #filling: Filling<Node> | undefined;

  readonly onDidChangeTreeData: Event<Node | undefined> = this.#changed.event;

  /** @param onSeen called whenever the view wants lines and there is nothing yet that has them */
  constructor(id: string, onSeen: () => void) {
    this.#onSeen = onSeen;
    this.view = window.createTreeView(id, { treeDataProvider: this, showCollapseAll: true });
  }

  /** From now on `filling` has the lines. */
  fill(filling: Filling<Node>): Part {
    this.#filling = filling;
    this.#changed.fire(undefined);
    return filling.onDidChangeTreeData((node) => {
      this.#changed.fire(node);
    });
  }

  getChildren(node?: Node): ReturnType<TreeDataProvider<Node>['getChildren']> {
    if (!this.#filling) this.#onSeen();
    return this.#filling?.getChildren(node);
  }

  getTreeItem(node: Node): TreeItem | Thenable<TreeItem> {
    return this.#filling!.getTreeItem(node);
  }

  dispose(): void {
    this.view.dispose();
    this.#changed.dispose();
  }
}
