import { describe, it } from 'vitest';
import { prepareHost } from './host/prepare.ts';
import { describeInHost } from './in-host.ts';
import { describeNewSession } from './new-session-story.ts';
import { describeKeyboardStory } from './keyboard-story.ts';
import { describeSheetStory } from './sheet-story.ts';
import { describeMat } from './mat-story.ts';
import { describeReviewStory } from './review-story.ts';
import { describeRules } from './rules-story.ts';
import { describeStory } from './story.ts';

/*
 * The extension in a real editor. The editor host comes from the package registry with the first run (some 600 MB on
 * disk; SELVEDGE_EDITOR_HOST says where it is kept); where it cannot be had, one skipped test says why. One file, so
 * that one workbench runs at a time.
 */
const host = await prepareHost().catch((error: unknown) => (error instanceof Error ? error.message : String(error)));

if (typeof host === 'string') {
  console.warn(`\nNO EDITOR HOST, so nothing of the editor was tested: ${host}\n`);
  describe('the extension in a real editor', () => {
    it.skip(`SKIPPED, no editor host: ${host.split('\n')[0]!}`, () => undefined);
  });
} else {
  describeInHost(host);
  describeStory(host);
  describeNewSession(host);
  describeSheetStory(host);
  describeMat(host);
  describeRules(host);
  describeReviewStory(host);
  describeKeyboardStory(host);
}
