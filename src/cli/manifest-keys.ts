import { manifestSchema } from '../manifest/schema.ts';
import { FRAME } from '../manifest/schema-frame.ts';
import type { MapSchema } from '../manifest/schema-kinds.ts';
import { RULE_CATALOGUE } from '../session/file-rules.ts';

/** What a manifest may say, a line a key, for help; docs/manifest.md says it at length. */
export function manifestKeysHelp(): string {
  return [
    '',
    'What a manifest may say over all frames:',
    ...keyLines(manifestSchema(RULE_CATALOGUE)),
    '',
    'and in each frame:',
    ...keyLines(FRAME),
    '',
    'All of it with examples: docs/manifest.md',
  ].join('\n');
}

function keyLines({ keys }: MapSchema): string[] {
  const widest = Math.max(...[...keys.keys()].map((name) => name.length));
  return [...keys].map(([name, { help, example }]) => {
    const shown = example.length > 30 ? '' : `  ${name}: ${example}`;
    return `  ${name.padEnd(widest)}  ${help}${shown}`;
  });
}
