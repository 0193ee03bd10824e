import progressBars from 'cli-progress';
import type { Streams } from './streams.ts';

export interface Progress {
  readonly update: (progress: { readonly done: number; readonly total: number }) => void;
  readonly stop: () => void;
}

/** A bar with rate and time left on a terminal's stderr; nothing anywhere else. */
export function showProgress({ stderr }: Streams, what: string, noun: string): Progress {
  if (stderr.isTTY !== true) return { update: () => undefined, stop: () => undefined };
  const began = Date.now();
  const bar = new progressBars.SingleBar(
    {
      format: (options, { progress, value, total, eta }, { rate }: { readonly rate: string }) => {
        const bar = `${what} ${progressBars.Format.BarFormat(progress, options)} ${value}/${total} ${noun}`;
        // Nothing is known of the pace before the first is done.
        return value === 0 ? bar : `${bar}, ${rate} a second, ${progressBars.Format.TimeFormat(eta, options, 5)} left`;
      },
      stream: process.stderr,
      hideCursor: true,
      clearOnComplete: true,
      etaBuffer: 30,
    },
    progressBars.Presets.shades_classic,
  );
  let isStarted = false;
  return {
    update: ({ done, total }) => {
      if (total === 0) return;
      const rate = ((1000 * done) / (Date.now() - began)).toFixed(1);
      if (isStarted) bar.update(done, { rate });
      else bar.start(total, done, { rate });
      isStarted = true;
    },
    stop: () => {
      if (isStarted) bar.stop();
    },
  };
}
