/** A share as whole percent; a dash where nothing was asked. */
export function percent(share: number): string {
  return Number.isNaN(share) ? '–' : `${(100 * share).toFixed(0)} %`;
}
