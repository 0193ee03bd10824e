import { MEASURE_TITLE } from '../panel/messages.ts';
import type { Remedies } from '../session/remedies.ts';

/** What messages tell somebody to do who sits in the editor. */
export const EDITOR_REMEDIES: Remedies = {
  measure: () => `Choose “${MEASURE_TITLE}” among its fixes.`,
};
