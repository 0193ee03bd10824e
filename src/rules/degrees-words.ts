/** `1.5°`; a true minus sign before what is less than nothing. */
export function degreesWords(degrees: number): string {
  return `${degrees < 0 ? '−' : ''}${String(Math.abs(degrees))}°`;
}
