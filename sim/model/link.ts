/**
 * Radio outages are an alternating renewal process on the flight's clock: the gaps between outages are exponential with mean
 * 1/rate, their lengths are exponential with the mean length. Outage j lies at [begin_j, end_j].
 */
import type { NoiseSeries } from '../draws/draw.js';

/** The outages of one flight, found as far as they are asked for. */
export interface Outages {
  rate: number;
  meanLength: number;
  noise: NoiseSeries | null;
  /** The outage last looked at, and where it lies. */
  index: number;
  begin: number;
  end: number;
}

export function createOutages(): Outages {
  return {
    rate: 0,
    meanLength: 1,
    noise: null,
    index: -1,
    begin: Number.POSITIVE_INFINITY,
    end: Number.POSITIVE_INFINITY,
  };
}

export function resetOutages(outages: Outages, rate: number, meanLength: number, noise: NoiseSeries): void {
  outages.rate = rate;
  outages.meanLength = meanLength;
  outages.noise = noise;
  rewindOutages(outages);
}

/** Back to the first outage of the flight. */
export function rewindOutages(outages: Outages): void {
  outages.index = -1;
  outages.end = 0;
  next(outages);
}

function next(outages: Outages): void {
  outages.index += 1;
  if (outages.rate <= 0 || outages.noise === null) {
    outages.begin = Number.POSITIVE_INFINITY;
    outages.end = Number.POSITIVE_INFINITY;
    return;
  }
  outages.begin = outages.end + outages.noise.at(outages.index, 0) / outages.rate;
  outages.end = outages.begin + outages.noise.at(outages.index, 1) * outages.meanLength;
}

/** Moves to the outage that is on at `time`, or the next one after it; times asked for must not go back. */
export function outageAt(outages: Outages, time: number): Outages {
  while (outages.end <= time) next(outages);
  return outages;
}

/** When an order given at `time` gets through: at once, or when the outage then on is over. */
export function throughAt(outages: Outages, time: number): number {
  const o = outageAt(outages, time);
  return o.begin <= time ? o.end : time;
}
