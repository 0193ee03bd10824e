import type { ActiveLimit } from '../rules/active-limit.ts';
import type { Length } from '../people/lengths.ts';

/** What a search may be asked beyond "break nothing". */
export interface SearchOptions {
  /** Keys of the frame's `allow`: `rule` or `rule/joint`. What they cover is not asked of the crop. */
  readonly allow?: readonly string[];
  /** Pixels of the short side that an output needs. Absent: 600, or the present crop's if that is smaller. */
  readonly minimumShortSide?: number;
  /** The crop stays at this length of the tallest subject or at a wider one. */
  readonly tightest?: Length;
  /** The lower edge on the tallest subject stays at this length or a tighter one. */
  readonly widest?: Length;
  /** `tighter`: inside the present crop. `wider`: at least as wide and as high. */
  readonly direction?: 'tighter' | 'wider';
  /** Only the limits for which this says yes must be met. */
  readonly only?: (limit: ActiveLimit) => boolean;
  /** Limits for which this says yes are broken only where every crop breaks one of them. */
  readonly keep?: (limit: ActiveLimit) => boolean;
  /** Nodes after which the search stops and says so. */
  readonly maximumNodes?: number;
}
