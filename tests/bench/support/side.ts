/** One of two ways to do the same work, which take turns. */
export interface Side {
  /** Does all of the work once and gives the photos a second. */
  round(): Promise<number>;
  close(): void;
}
