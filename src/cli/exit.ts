/** What the command line answers with. */
export const EXIT = {
  /** Nothing at warning or above; all done. */
  clean: 0,
  /** Findings, or something is left to do. */
  findings: 1,
  /** A bad call, or nothing that could be read. */
  failure: 2,
  /** Stopped from the keyboard; what was done is kept. */
  interrupted: 130,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** A call that cannot be carried out; the message says what would be right. */
export class BadCall extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'BadCall';
  }
}

/** Stopped from the keyboard; the message says what was done by then. */
export class Interrupted extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'Interrupted';
  }
}
