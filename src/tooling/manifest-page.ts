import type { DynamicKeys, KeySchema, MapSchema, Schema } from '../manifest/schema-kinds.ts';
import { FRAME } from '../manifest/schema-frame.ts';
import { CROP } from '../manifest/schema-crop.ts';
import { OUTPUT } from '../manifest/schema-output.ts';
import { manifestSchema } from '../manifest/schema.ts';
import { RULE_CATALOGUE } from '../session/file-rules.ts';

/** `docs/manifest.md`: every key that a manifest may have, from the schema that also checks it. */
export function manifestPage(): string {
  const manifest = manifestSchema(RULE_CATALOGUE);
  const parts = [
    HEAD,
    section('Over all frames', 'These stand at the left, once.', manifest),
    section('In each frame', 'These stand under `frames:`, each frame beginning with `- photo:`.', FRAME),
    section('A crop', 'What is kept, in fractions of the photo: 0 is the photo’s own edge, 1 the whole photo.', CROP),
    section('An output', 'What `deliver` says of each thing that gets delivered.', OUTPUT),
    RULES_PART,
  ];
  return `${parts.join('\n\n')}\n`;
}

const HEAD = `# The manifest

One text file a session, \`crops.yaml\` or \`NAME.crops.yaml\`. It is YAML: spaces before a key say what it belongs to. Every
key but \`selvedge\`, \`frames\` and each frame’s \`photo\` may be left out. Keys of your own begin with \`x-\`.

This page comes from the data that checks a manifest (\`npm run generate\`); \`media/crops.schema.json\` is the same for
editors.

\`\`\`yaml
selvedge: 1
session: Boardwalk, late light
photos: proofs
aspect: original
compose: thirds
rules:
  headroom: { severity: error }
  eye-line: off
frames:
  - photo: 0142.jpg
    crop: { x: 0.1, y: 0.06, w: 0.8, h: 0.8 }
    straighten: -1.4
    aspect: "2:3"
    length: three-quarter
    subjects: [1, 2]
    compose: centred
    allow: { joint-cut/left_wrist: "hand tucked in the pocket" }
    note: "client likes the wider one"
    final: true
\`\`\``;

const RULES_PART = `## What a fix never does

No fix gives a crop a short side under 600 px, or under 35 % of the photo’s own where that is less (common practice, no
source); a crop that is smaller already may stay as small. So a photo of few pixels may have no close-up. Where no crop is
clean, a frame is changed only if something is mended and no error or warning is new or worse.

## Rules

Under \`rules:\`, each rule’s id with a severity (\`error\`, \`warning\`, \`info\`, \`off\`), or with settings:
\`headroom: { severity: error }\`. The README lists the rules; each rule’s page has its settings. The same ids stand under
\`allow\`, alone (\`hand-cut\`) or with the joint that is meant (\`joint-cut/left_wrist\`), each with its reason.`;

function section(title: string, introduction: string, { keys, dynamic }: MapSchema): string {
  const rows = [...keys].map(([name, key]) => row(`\`${name}\``, key));
  const free = dynamic ? [row(`*${dynamic.name}*`, dynamic)] : [];
  return [
    `## ${title}`,
    '',
    introduction,
    '',
    '| key | what it says | what it may be | example |',
    '| --- | --- | --- | --- |',
    ...rows,
    ...free,
  ].join('\n');
}

function row(name: string, key: KeySchema | DynamicKeys): string {
  const isRequired = 'required' in key && key.required;
  return `| ${name}${isRequired ? ' (needed)' : ''} | ${key.help} | ${kindWords(key.value)} | \`${key.example}\` |`;
}

/** What a value may be, in words. */
function kindWords(schema: Schema): string {
  switch (schema.kind) {
    case 'text':
      return schema.patternMeaning ?? 'text';
    case 'number':
      return `${schema.integer ? 'whole number' : 'number'}${boundsWords(schema)}`;
    case 'boolean':
      return '`true` or `false`';
    case 'choice':
      return schema.options.map((option) => `\`${option}\``).join(', ');
    case 'aspect':
      return '`original`, `free`, or a shape as `"2:3"`';
    case 'measure':
      return 'a number with `px`, `mm`, `cm` or `in`';
    case 'list':
    case 'map':
    case 'severity-or-map':
      return schema.meaning ?? 'a map';
  }
}

function boundsWords({ minimum, above, maximum }: { minimum?: number; above?: number; maximum?: number }): string {
  const least = minimum === undefined ? (above === undefined ? '' : ` above ${above}`) : ` from ${minimum}`;
  const most = maximum === undefined ? '' : minimum === undefined ? `, at most ${maximum}` : ` to ${maximum}`;
  return minimum !== undefined && minimum === maximum ? `: ${minimum}` : `${least}${most}`.replaceAll('-', '−');
}
