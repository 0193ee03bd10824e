import { Diagnostic, DiagnosticRelatedInformation, DiagnosticSeverity, languages, Location } from 'vscode';
import type { Frame } from '../manifest/manifest.ts';
import type { Severity } from '../rules/rule.ts';
import type { LocatedFinding } from '../session/located-finding.ts';
import type { Session } from '../session/session.ts';
import type { Checked, OpenManifests } from './open-manifests.ts';
import { rangeIn } from './places.ts';
import { plainLine } from './plain-text.ts';
import { askedAt } from './related-places.ts';
import type { RulePages } from './rule-pages.ts';
import type { Part } from './part.ts';

export const SOURCE = 'selvedge';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

/** Shows findings on the text that causes them; what an `allow` covers is not shown. */
export function showDiagnostics(manifests: OpenManifests, pages: RulePages): Part[] {
  const collection = languages.createDiagnosticCollection(SOURCE);
  return [
    collection,
    manifests.onDidCheck((checked) => {
      collection.set(checked.manifest.document.uri, diagnosticsOf(checked, pages));
    }),
    manifests.onDidClose((uri) => {
      collection.delete(uri);
    }),
  ];
}

function diagnosticsOf({ manifest: { document }, check }: Checked, pages: RulePages): Diagnostic[] {
  const { session, findings, frames } = check;
  const all = [
    ...findings.map((finding) => ({ finding, frame: undefined })),
    ...frames.flatMap(({ frame, findings: own }) => own.map((finding) => ({ finding, frame }))),
  ];
  return all
    .filter(({ finding }) => finding.allowed === undefined)
    .map(({ finding, frame }) => {
      const diagnostic = new Diagnostic(
        rangeIn(document, finding.range),
        plainLine(finding.message),
        SEVERITIES[finding.severity],
      );
      diagnostic.source = SOURCE;
      diagnostic.code = { value: finding.rule, target: pages.of(finding.rule) };
      diagnostic.relatedInformation = frame ? relatedTo(document, session, frame, finding) : [];
      return diagnostic;
    });
}

function relatedTo(
  document: Checked['manifest']['document'],
  session: Session,
  frame: Frame,
  finding: LocatedFinding,
): DiagnosticRelatedInformation[] {
  return askedAt(session.manifest, frame, finding).map(
    ({ range, message }) =>
      new DiagnosticRelatedInformation(new Location(document.uri, rangeIn(document, range)), plainLine(message)),
  );
}
