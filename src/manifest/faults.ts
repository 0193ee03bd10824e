import type { Fault } from './compose.ts';
import type { Problem, ProblemCode } from './manifest.ts';
import { slipOf } from './slips.ts';

/** What yaml's fault codes mean to somebody who writes a manifest by hand. */
const MEANINGS: Readonly<Record<string, string>> = {
  TAB_AS_INDENT: 'a tab stands where YAML wants spaces: indent with spaces',
  BAD_INDENT: 'the indentation does not fit, or a closing bracket is missing: compare it with the lines around it',
  BLOCK_AS_IMPLICIT_KEY:
    'there is a second "key: value" inside a value: compare the indentation, or put the text in quotes',
  MULTILINE_IMPLICIT_KEY:
    'a key must stand on one line with its colon: compare the indentation with the lines around it',
  BAD_DQ_ESCAPE: 'a backslash in double quotes begins an escape: write \\\\ for a backslash, or use single quotes',
  UNEXPECTED_TOKEN:
    'something stands here that does not belong: compare brackets, quotes and indentation with the lines around it',
  BAD_DIRECTIVE: 'this line speaks of a version of YAML that is not known here: take it out',
  MERGE: 'a merge was not finished here: keep one version, and delete the lines with <<<<<<<, ======= and >>>>>>>',
  DEEP: 'brackets, braces or lists stand too deep in each other: write it flatter',
  UNREADABLE: 'this cannot be read as YAML',
};

/** Faults that others have to know from the rest. */
const CODES: Readonly<Record<string, ProblemCode>> = { TAB_AS_INDENT: 'tab', MERGE: 'unfinished-merge' };

/** What these say is already all there is to say. */
const OWN_WORDS: ReadonlySet<string> = new Set(['TAB_AS_INDENT', 'BAD_DQ_ESCAPE', 'MERGE', 'UNREADABLE']);

/** A fault of the YAML as a problem; `consequence` says what is lost by it. */
export function faultProblem(fault: Fault, text: string, consequence?: string): Problem {
  const isDeep = /call stack/i.test(fault.message);
  const unclosed = /^Missing closing ['"]quote/.test(fault.message);
  const slip = isDeep || OWN_WORDS.has(fault.code) || isWarning(fault) ? undefined : slipOf(fault, text);
  const meaning = unclosed
    ? 'the closing quote is missing'
    : (slip ?? MEANINGS[isDeep ? 'DEEP' : fault.code] ?? lowerFirst(fault.message.trim()));
  const end = Math.min(Math.max(fault.end, fault.start), text.length);
  return {
    code: CODES[fault.code] ?? 'yaml',
    message: `Broken YAML: ${meaning}.${consequence === undefined ? '' : ` ${consequence}`}`,
    range: { start: Math.min(fault.start, end), end },
    severity: isWarning(fault) ? 'warning' : 'error',
  };
}

/** An unknown tag is taken as if it were not there; everything else hides something. */
export function isWarning(fault: Fault): boolean {
  return fault.code === 'TAG_RESOLVE_FAILED' || fault.code === 'BAD_DIRECTIVE';
}

function lowerFirst(text: string): string {
  return text.charAt(0).toLowerCase() + text.slice(1);
}
