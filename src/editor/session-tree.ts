import { countWords } from './count-words.ts';
import type { TreeDataProvider, Uri } from 'vscode';
import { EventEmitter, ThemeColor, ThemeIcon, TreeItem, TreeItemCollapsibleState, workspace } from 'vscode';
import type { Counts } from '../session/counts.ts';
import { plainLine } from './plain-text.ts';
import type { Part } from './part.ts';
import type { SessionList } from './session-list.ts';
import type { FrameSummary, SessionSummary } from './session-summary.ts';

/** A line of the tree. */
export type SessionNode =
  | { readonly kind: 'session'; readonly uri: Uri }
  /** A stretch of a session with very many frames. */
  | { readonly kind: 'stretch'; readonly uri: Uri; readonly first: number; readonly end: number }
  | { readonly kind: 'frame'; readonly uri: Uri; readonly frame: FrameSummary };

/** More lines than these at once are slow to draw, and nobody reads them. */
const MOST_LINES = 400;
const NAME = 100;

/** The sessions of the workspace and their frames. It only tells what the list knows: it never reads anything itself. */
export class SessionTree implements TreeDataProvider<SessionNode>, Part {
  readonly #list: SessionList;
  readonly #changed = new EventEmitter<SessionNode | undefined>();
  readonly #nodes = new Map<string, SessionNode>();
  readonly #subscription: Part;

  readonly onDidChangeTreeData = this.#changed.event;

  constructor(list: SessionList) {
    this.#list = list;
    this.#subscription = list.onDidChange((uri) => {
      this.#changed.fire(uri && this.#nodes.get(uri.toString()));
    });
  }

  async getChildren(node?: SessionNode): Promise<SessionNode[]> {
    if (!node) return (await this.#list.uris()).map((uri) => this.#nodeOf(uri));
    const { uri } = node;
    const frames = this.#list.summaryOf(uri)?.frames ?? [];
    if (node.kind === 'session' && frames.length > MOST_LINES) {
      const many = Math.ceil(frames.length / MOST_LINES);
      return Array.from({ length: many }, (_, part) => {
        const first = part * MOST_LINES;
        return { kind: 'stretch', uri, first, end: Math.min(first + MOST_LINES, frames.length) };
      });
    }
    if (node.kind === 'frame') return [];
    const [first, end] = node.kind === 'stretch' ? [node.first, node.end] : [0, frames.length];
    return frames.slice(first, end).map((frame) => ({ kind: 'frame', uri, frame }));
  }

  getTreeItem(node: SessionNode): TreeItem {
    if (node.kind === 'session') return sessionItem(node.uri, this.#list.summaryOf(node.uri));
    if (node.kind === 'stretch') {
      const item = new TreeItem(`Frames ${node.first + 1} to ${node.end}`, TreeItemCollapsibleState.Collapsed);
      item.id = `${node.uri.toString()}#${node.first}`;
      return item;
    }
    return frameItem(node.uri, node.frame);
  }

  dispose(): void {
    this.#subscription.dispose();
    this.#changed.dispose();
  }

  /** The same object for the same session: the editor knows lines of the tree by their objects. */
  #nodeOf(uri: Uri): SessionNode {
    const key = uri.toString();
    const node = this.#nodes.get(key) ?? { kind: 'session', uri };
    this.#nodes.set(key, node);
    return node;
  }
}

function sessionItem(uri: Uri, summary: SessionSummary | undefined): TreeItem {
  const path = plainLine(workspace.asRelativePath(uri), 200);
  const title = summary?.name === undefined ? '' : plainLine(summary.name, NAME).trim();
  const label = title === '' ? path : title;
  const hasFrames = summary === undefined || summary.frames.length > 0;
  const item = new TreeItem(label, hasFrames ? TreeItemCollapsibleState.Collapsed : TreeItemCollapsibleState.None);
  const told = summary === undefined ? 'not read yet' : sessionWords(summary);
  item.id = uri.toString();
  item.description = label === path ? told : `${told} · ${path}`;
  item.tooltip = summary?.trouble === undefined ? `${path}: ${told}` : `${path}: ${plainLine(summary.trouble)}`;
  if (summary) item.iconPath = iconOf({ ...summary.counts, ...(summary.trouble !== undefined && { errors: 1 }) });
  item.contextValue = 'session';
  item.accessibilityInformation = { label: `Session ${label}, ${told}` };
  item.command = { command: 'vscode.open', title: 'Open', arguments: [uri] };
  return item;
}

function sessionWords({ trouble, counts, frames }: SessionSummary): string {
  if (trouble !== undefined && frames.length === 0) return 'cannot be read';
  const all = `${frames.length.toLocaleString('en')} ${frames.length === 1 ? 'frame' : 'frames'}`;
  return [all, ...(trouble === undefined ? [] : ['in trouble']), countWords(counts)].join(', ');
}

function frameItem(uri: Uri, { index, name, line, isApproved, findings }: FrameSummary): TreeItem {
  const label = plainLine(name, NAME) || '?';
  const item = new TreeItem(label);
  const told = [...(isApproved ? ['approved'] : []), countWords(findings)].join(', ');
  item.description = told;
  item.tooltip = `${label}, line ${line + 1}: ${told}`;
  item.iconPath = iconOf(findings);
  item.contextValue = 'frame';
  item.accessibilityInformation = { label: `${label}, ${told}` };
  item.command = { command: 'selvedge.sessions.goToFrame', title: 'Go to the Frame', arguments: [uri, index, name] };
  return item;
}

function iconOf({ errors, warnings, infos }: Pick<Counts, 'errors' | 'warnings' | 'infos'>): ThemeIcon {
  const coloured = (name: string, colour: string): ThemeIcon => new ThemeIcon(name, new ThemeColor(colour));
  if (errors > 0) return coloured('error', 'problemsErrorIcon.foreground');
  if (warnings > 0) return coloured('warning', 'problemsWarningIcon.foreground');
  if (infos > 0) return coloured('info', 'problemsInfoIcon.foreground');
  return new ThemeIcon('check');
}
