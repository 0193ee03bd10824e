/** Something of the editor's that is given back when it is no longer needed. */
export interface Part {
  dispose(): unknown;
}
