import { shellPath } from './shell.ts';

/** What a message tells somebody to do, in the words of the door they came in by; each a sentence. */
export interface Remedies {
  /** People are to be measured. */
  readonly measure: (manifestPath: string) => string;
}

/** Where nothing else is said. */
export const COMMAND_LINE_REMEDIES: Remedies = {
  measure: (manifestPath) => `Run: selvedge measure ${shellPath(manifestPath)}`,
};
