import type { QuickPickItem } from 'vscode';
import { window } from 'vscode';
import { parseRatio } from '../geometry/ratio.ts';
import type { FrameChange } from '../manifest/edit.ts';
import { COMPOSITIONS, LENGTHS, type Aspect } from '../manifest/manifest.ts';
import type { Act } from '../panel/sheet-messages.ts';
import { LENGTH_WORDS } from '../people/lengths.ts';
import { allowKeyOf } from '../rules/finding.ts';
import { RULES } from '../rules/index.ts';
import type { FrameCheck } from '../session/frame-check.ts';
import { isPressing, type LocatedFinding } from '../session/located-finding.ts';

/** What to set in each frame that somebody selected; undefined leaves a frame as it is. */
export type ChangeOf = (check: FrameCheck) => FrameChange | undefined;

const OF_CROPS: ReadonlySet<string> = new Set(RULES.map(({ id }) => id));
/** Shapes of prints and screens that are asked for often (common practice, no source). */
const SHAPES = ['original', 'free', '1:1', '4:5', '5:7', '3:4', '2:3', '16:9'];
const OTHER_SHAPE = 'Another shape…';

/** Asks what an act still needs to know. Undefined when somebody thinks better of it, or there is nothing to do. */
export async function askFor(act: Exclude<Act, 'fix' | 'fix-rule'>, checks: readonly FrameCheck[]) {
  switch (act) {
    case 'approve':
      return changing(({ frame }) => (frame.final?.value === true ? undefined : { final: true }));
    case 'take-back':
      return changing(({ frame }) => (frame.final?.value === true ? { final: false } : undefined));
    case 'length': {
      const picked = await pick(
        'Length of the selected frames',
        LENGTHS.map((length) => ({ label: LENGTH_WORDS[length], length })),
      );
      return picked && unlessApproved(() => ({ length: picked.length }));
    }
    case 'compose': {
      const picked = await pick(
        'Composition of the selected frames',
        COMPOSITIONS.map((compose) => ({ label: compose, compose })),
      );
      return picked && unlessApproved(() => ({ compose: picked.compose }));
    }
    case 'aspect': {
      const aspect = await askForShape();
      return aspect && unlessApproved(() => ({ aspect }));
    }
    case 'allow':
      return askForReason(checks);
  }
}

/** One of the rules that a fix can do something about in these frames. */
export async function askForRule(checks: readonly FrameCheck[]): Promise<string | undefined> {
  const isFixable = (finding: LocatedFinding): boolean => isPressing(finding) && OF_CROPS.has(finding.rule);
  return pickRule('Fix which rule in the selected frames?', checks, isFixable);
}

async function askForReason(checks: readonly FrameCheck[]): Promise<ChangeOf | undefined> {
  const isOpen = ({ rule, allowed }: LocatedFinding): boolean => allowed === undefined && OF_CROPS.has(rule);
  const rule = await pickRule('Allow which rule in the selected frames?', checks, isOpen);
  if (rule === undefined) return undefined;
  const reason = await window.showInputBox({
    title: `Allow ${rule}`,
    prompt: 'Why is it meant to be so? The reason is written beside each frame.',
    validateInput: (text) => (text.trim() === '' ? 'A reason is needed: it is what others read later.' : undefined),
  });
  if (reason === undefined) return undefined;
  return unlessApproved(({ findings }) => {
    const found = findings.filter((finding) => finding.rule === rule && isOpen(finding));
    if (found.length === 0) return undefined;
    const keys = found.map(allowKeyOf);
    return { allow: Object.fromEntries(keys.map((key) => [key, reason.trim()])) };
  });
}

async function pickRule(
  title: string,
  checks: readonly FrameCheck[],
  isMeant: (finding: LocatedFinding) => boolean,
): Promise<string | undefined> {
  const counts = new Map<string, number>();
  for (const { findings, frame } of checks) {
    if (frame.final?.value === true) continue;
    for (const rule of new Set(findings.filter(isMeant).map((finding) => finding.rule))) {
      counts.set(rule, (counts.get(rule) ?? 0) + 1);
    }
  }
  if (counts.size === 0) {
    void window.showInformationMessage('No rule says anything about the selected frames that this could change.');
    return undefined;
  }
  const items = [...counts]
    .sort(([one, many], [other, few]) => few - many || one.localeCompare(other))
    .map(([label, frames]) => ({ label, description: frames === 1 ? '1 frame' : `${frames} frames` }));
  return (await pick(title, items))?.label;
}

async function askForShape(): Promise<Aspect | undefined> {
  const picked = await pick(
    'Shape of the selected frames',
    [...SHAPES, OTHER_SHAPE].map((label) => ({ label })),
  );
  if (!picked) return undefined;
  if (picked.label === 'original' || picked.label === 'free') return { kind: picked.label };
  const text =
    picked.label === OTHER_SHAPE
      ? await window.showInputBox({
          title: 'Shape of the selected frames',
          prompt: 'Two numbers with a colon between, such as 11:14; each frame keeps lying or standing.',
          validateInput: (typed) => (parseRatio(typed) ? undefined : 'Write it as 11:14.'),
        })
      : picked.label;
  const ratio = text === undefined ? undefined : parseRatio(text);
  return ratio && { kind: 'ratio', ...ratio };
}

async function pick<Item extends QuickPickItem>(title: string, items: readonly Item[]): Promise<Item | undefined> {
  return window.showQuickPick(items, { title, placeHolder: title });
}

function changing(change: ChangeOf): ChangeOf {
  return change;
}

/** An approved frame is changed by nothing but taking the approval back. */
function unlessApproved(change: ChangeOf): ChangeOf {
  return (check) => (check.frame.final?.value === true ? undefined : change(check));
}
