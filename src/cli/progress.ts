import { Presets, SingleBar } from 'cli-progress';
import type { Streams } from './streams.ts';

export interface Progress {
  readonly update: (progress: { readonly done: number; readonly total: number }) => void;
  readonly stop: () => void;
}

/** A bar with rate and time left on a terminal's stderr; nothing anywhere else. */
export function showProgress({ stderr }: Streams, what: string, noun: string): Progress {
  if (stderr.isTTY !== true) return { update: () => undefined, stop: () => undefined };
  const began = Date.now();
  const bar = new SingleBar(
    {
      format: `${what} {bar} {value}/{total} ${noun}, {rate} a second, {eta_formatted} left`,
      stream: process.stderr,
      hideCursor: true,
      clearOnComplete: true,
      etaBuffer: 30,
    },
    Presets.shades_classic,
  );
  let isStarted = false;
  return {
    update: ({ done, total }) => {
      if (total === 0) return;
      const seconds = (Date.now() - began) / 1000;
      const rate = done === 0 ? '–' : (done / seconds).toFixed(1);
      if (isStarted) bar.update(done, { rate });
      else bar.start(total, done, { rate });
      isStarted = true;
    },
    stop: () => {
      if (isStarted) bar.stop();
    },
  };
}
