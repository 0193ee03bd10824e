export interface Counts {
  readonly frames: number;
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
}

interface Counted {
  readonly severity: string;
  readonly allowed?: string;
}

/** Findings about a session as a whole and about its frames. */
interface CheckedParts {
  readonly findings: readonly Counted[];
  readonly frames: readonly { readonly findings: readonly Counted[] }[];
}

/** How much was found; what an `allow` covers counts nowhere. */
export function countFindings(checks: readonly CheckedParts[]): Counts {
  const counted = checks
    .flatMap((check) => [...check.findings, ...check.frames.flatMap((frame) => frame.findings)])
    .filter((finding) => finding.allowed === undefined);
  const ofSeverity = (severity: string): number => counted.filter((finding) => finding.severity === severity).length;
  return {
    frames: checks.reduce((sum, check) => sum + check.frames.length, 0),
    errors: ofSeverity('error'),
    warnings: ofSeverity('warning'),
    infos: ofSeverity('info'),
  };
}
