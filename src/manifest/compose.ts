import type { Document, ParsedNode } from 'yaml';
import { Composer, Parser } from 'yaml';

/** What yaml made of a text or a piece of one; all offsets are into the whole text. */
export interface Composed {
  readonly contents: ParsedNode | null;
  readonly faults: readonly Fault[];
  /** Where a second document begins. */
  readonly secondDocument?: number;
}

/** A fault of the YAML itself. */
export interface Fault {
  readonly code: string;
  readonly message: string;
  readonly start: number;
  readonly end: number;
}

/**
 * `uniqueKeys: false`: yaml compares every key with every other (quadratic); read.ts sees duplicates in one pass.
 */
const OPTIONS = { keepSourceTokens: true, uniqueKeys: false, prettyErrors: false, logLevel: 'silent' } as const;

/** Reads `piece`, which stands at `offset` in the whole text. Never throws. */
export function compose(piece: string, offset = 0): Composed {
  const parser = new Parser();
  parser.offset = offset;
  const { env } = process;
  const { stackTraceLimit } = Error;
  // yaml asks the environment at every token whether somebody debugs it, which takes as long as the token itself.
  process.env = {};
  // Each fault is an error that looks up where it was made: in a broken text of thousands that takes seconds.
  Error.stackTraceLimit = 0;
  try {
    const documents = new Composer(OPTIONS).compose(parser.parse(piece), true, offset + piece.length);
    const [first, second] = documents as Iterable<Document.Parsed>;
    const faults = first ? [...first.errors, ...first.warnings] : [];
    return {
      contents: first?.contents ?? null,
      faults: faults.map(({ code, message, pos }) => ({ code, message, start: pos[0], end: pos[1] })),
      ...(second && { secondDocument: second.range[0] }),
    };
  } catch (error) {
    // Nesting so deep that the stack ends; whoever calls tries smaller pieces.
    const message = error instanceof Error ? error.message : String(error);
    return { contents: null, faults: [{ code: 'UNREADABLE', message, start: offset, end: offset + piece.length }] };
  } finally {
    process.env = env;
    Error.stackTraceLimit = stackTraceLimit;
  }
}
