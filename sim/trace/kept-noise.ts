/** The noise of a flight, kept as far as the flight reads it: the series themselves are reused by the next draw. */
import type { FlightNoise, NoiseSeries } from '../draws/draw.js';
import { NOISE_NAMES } from '../draws/noise.js';
import { NOISE_MEANINGS } from '../draws/noise-meanings.js';
import type { TracedNoise } from './result.js';

export interface KeptNoise {
  /** The same noise, to fly with. */
  readonly noise: FlightNoise;
  /** What has been read of it, in the order of NOISE_NAMES; to be taken before anything else is drawn. */
  readonly read: () => readonly TracedNoise[];
}

export function keepNoise(noise: FlightNoise): KeptNoise {
  const lastNodes = new Map<NoiseSeries, number>();
  const watched = (series: NoiseSeries): NoiseSeries => {
    const watching: NoiseSeries = {
      at(node, column) {
        lastNodes.set(watching, Math.max(node, lastNodes.get(watching) ?? -1));
        return series.at(node, column);
      },
    };
    return watching;
  };
  const flown = Object.fromEntries(
    Object.entries(noise).map(([key, series]) => [key, watched(series)]),
  ) as unknown as FlightNoise;
  const read = () =>
    NOISE_NAMES.map((name): TracedNoise => {
      const { of, ...meaning } = NOISE_MEANINGS[name];
      const series = of(flown);
      const nodes = 1 + (lastNodes.get(series) ?? -1);
      const values = Array.from({ length: nodes }, (_, node) =>
        meaning.columns.map((_name, column) => series.at(node, column)),
      );
      return { name, ...meaning, values };
    });
  return { noise: flown, read };
}
