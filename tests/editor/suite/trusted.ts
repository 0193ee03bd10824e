import { codeActions } from './code-actions.ts';
import { diagnostics } from './diagnostics.ts';
import { frameMaking } from './frame-making.ts';
import { newSession } from './new-session.ts';
import { photoRoom } from './photo-room.ts';
import { reading } from './reading.ts';
import { sessions } from './sessions.ts';
import { sheet } from './sheet.ts';
import { runAll } from './testing.ts';

/** Everything that is shown in a folder that the user trusts. */
export async function run(): Promise<void> {
  await runAll([
    ...diagnostics,
    ...codeActions,
    ...frameMaking,
    ...reading,
    ...photoRoom,
    ...sessions,
    ...newSession,
    ...sheet,
  ]);
}
