import type { Fix } from '../../search/index.ts';
import { editFrame } from '../../manifest/edit.ts';
import type { TextRange } from '../../manifest/manifest.ts';
import { LineIndex } from '../../manifest/position.ts';
import type { SessionCheck } from '../../session/check.ts';
import type { LocatedFinding } from '../../session/located-finding.ts';
import { printableJson } from '../printable.ts';
import { Fingerprints } from './fingerprints.ts';
import { levelOf, RULE_DESCRIPTORS, RULE_PLACES } from './rules.ts';

export interface SarifFormat {
  /** Of this program. */
  readonly version: string;
  /** A manifest's path as a URI reference: relative to the folder that the reader takes for the root of the sources. */
  readonly uriOf: (path: string) => string;
  /** Tells this run from others over the same manifests, such as `shard-1-of-2`. */
  readonly part?: string;
}

/** Who reads the file decides what it is; the same name is used by everybody (SARIF 2.1.0, 3.14.14). */
const SOURCE_ROOT = '%SRCROOT%';
const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json';

/** The whole check as a SARIF 2.1.0 log with one run. Findings that an `allow` covers are suppressed results. */
export function formatSarif(checks: readonly SessionCheck[], { version, uriOf, part }: SarifFormat): string {
  const log = {
    $schema: SCHEMA,
    version: '2.1.0',
    runs: [
      {
        tool: { driver: { name: 'Selvedge', version, semanticVersion: version, rules: RULE_DESCRIPTORS } },
        // The last part of an id may differ from run to run; what stands before it names the kind of run (3.17.3).
        automationDetails: { id: part === undefined ? 'selvedge/' : `selvedge/${part}/` },
        invocations: [{ executionSuccessful: true }],
        columnKind: 'utf16CodeUnits',
        results: checks.flatMap((check) => new SessionResults(check, uriOf(check.session.path)).all()),
      },
    ],
  };
  return printableJson(JSON.stringify(log));
}

class SessionResults {
  readonly #check: SessionCheck;
  readonly #lines: LineIndex;
  readonly #artifact: { readonly uri: string; readonly uriBaseId?: string };
  readonly #fingerprints = new Fingerprints();

  constructor(check: SessionCheck, uri: string) {
    this.#check = check;
    this.#lines = new LineIndex(check.session.manifest.text);
    this.#artifact = /^[a-z][a-z0-9+.-]*:/i.test(uri) ? { uri } : { uri, uriBaseId: SOURCE_ROOT };
  }

  all(): object[] {
    const { findings, frames } = this.#check;
    return [
      ...findings.map((finding) => this.#result(finding)),
      ...frames.flatMap(({ frame, findings: own }) => own.map((finding) => this.#result(finding, frame))),
    ];
  }

  #result(finding: LocatedFinding, frame?: { readonly name: string; readonly index: number }): object {
    const { rule, severity, message, range, allowed } = finding;
    const fixes = (frame ? (finding.fixes ?? []) : []).flatMap((fix) => this.#fix(fix, frame!.index));
    return {
      ruleId: rule,
      ruleIndex: RULE_PLACES.get(rule),
      level: levelOf(severity),
      message: { text: frame && !message.includes(frame.name) ? `${frame.name}: ${message}` : message },
      locations: [
        {
          physicalLocation: { artifactLocation: this.#artifact, region: this.#region(range) },
          ...(frame && { logicalLocations: [{ name: frame.name, kind: 'member' }] }),
        },
      ],
      partialFingerprints: { 'selvedgeFinding/v1': this.#fingerprints.of(finding, frame?.name) },
      ...(allowed !== undefined && { suppressions: [{ kind: 'inSource', justification: allowed }] }),
      ...(fixes.length > 0 && { fixes }),
    };
  }

  /** The smallest edit of the manifest's text that sets the crop. */
  #fix({ title, crop }: Fix, frameIndex: number): object[] {
    const edits = editFrame(this.#check.session.manifest, frameIndex, { crop });
    const replacements = edits.map(({ start, end, text }) => ({
      deletedRegion: this.#region({ start, end }),
      insertedContent: { text },
    }));
    if (replacements.length === 0) return [];
    return [{ description: { text: title }, artifactChanges: [{ artifactLocation: this.#artifact, replacements }] }];
  }

  #region({ start, end }: TextRange): object {
    const from = this.#lines.positionAt(start);
    const to = this.#lines.positionAt(end);
    return { startLine: from.line, startColumn: from.column, endLine: to.line, endColumn: to.column };
  }
}
