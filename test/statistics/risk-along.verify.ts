import normalCdf from '@stdlib/stats-base-dists-normal-cdf';
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { naturalSpline } from '../../sim/statistics/natural-spline.js';
import { type RiskBand, riskAlong } from '../../sim/statistics/risk-along.js';
import { figure, howMany } from '../in-full.js';

const STUDIES = howMany(30, 100);
/** Each end is to miss in 5 % of studies: three standard deviations more at most, 12 of 100. */
const MOST_MISSED = Math.ceil(0.05 * STUDIES + 3 * Math.sqrt(0.05 * 0.95 * STUDIES));

/** Flights of a known risk law over the normal score of one input. */
function flights(seed: string, number: number, risk: (score: number) => number) {
  const random = seedrandom.alea(seed);
  const uniforms = Float64Array.from({ length: number }, () => random.double());
  const failed = Uint8Array.from(uniforms, (u) => (random.double() < risk(normalQuantile(u, 0, 1)) ? 2 : 0));
  return { uniforms, failed };
}

/** Of so many studies: how many have the risk over the band, and under it, at each score. */
function missed(law: string, studies: number, risk: (score: number) => number, scores: readonly number[]) {
  const counts = scores.map(() => ({ over: 0, under: 0 }));
  for (let study = 0; study < studies; study++) {
    const along = riskAlong(flights(`${law} ${study}`, 4000, risk));
    scores.forEach((score, i) => {
      const band = along?.(score);
      if (band === undefined) throw new Error('no curve');
      if (risk(score) > band.upper) counts[i].over += 1;
      if (risk(score) < band.lower) counts[i].under += 1;
    });
  }
  return counts;
}

const logistic = (score: number) => 1 / (1 + Math.exp(3.5 - 0.6 * score));
// A flight fails when 0.3 score + noise is over 1.8, noise standard normal: 4 % at the median, 13 % at the end.
const threshold = (score: number) => 1 - normalCdf(1.8 - 0.3 * score, 0, 1);
const uShaped = (score: number) => 1 / (1 + Math.exp(3.6 - 0.35 * score ** 2));
const uniform = (score: number) => 0.01 + 0.06 * normalCdf(score, 0, 1);

describe('the risk along an input', () => {
  it.each([
    ['logistic', logistic],
    ['a threshold with noise', threshold],
    ['U-shaped', uShaped],
    ['linear in the quantile', uniform],
  ])('has a band that misses as often as it says: %s', (law, risk) => {
    for (const { over, under } of missed(law, STUDIES, risk, [-1, 0.5, 2.3263])) {
      figure(`${law}: over and under the band, of ${STUDIES}`, over, under);
      expect(over).toBeLessThanOrEqual(MOST_MISSED);
      expect(under).toBeLessThanOrEqual(MOST_MISSED);
    }
  });

  it('is flat where the input has no effect, at the share that failed', () => {
    const flown = flights('flat', 8000, () => 0.04);
    const along = riskAlong(flown);
    const share = flown.failed.filter((one) => one !== 0).length / 8000;
    for (const score of [-2.3, -1, 0, 1, 2.3]) {
      const band = along?.(score);
      expect(band?.lower).toBeLessThan(share);
      expect(band?.upper).toBeGreaterThan(share);
    }
  });

  it('takes its shape from further flights, but not its level', () => {
    const [own, more] = [flights('own', 4000, logistic), flights('more', 12000, logistic)];
    // As if the further flights had been picked for being good: half of their failures are gone.
    const picked = { ...more, failed: more.failed.map((one, i) => (i % 2 === 0 ? one : 0)) };
    const [alone, helped] = [riskAlong(own), riskAlong(own, picked)];
    const log = (risk: number) => Math.log(risk / (1 - risk));
    const width = (band: RiskBand | undefined) => (band ? log(band.upper) - log(band.lower) : Number.NaN);
    expect(width(helped?.(2.3263))).toBeLessThan(0.75 * width(alone?.(2.3263)));
    for (const score of [-1, 0.5, 2.3263]) {
      const band = helped?.(score);
      expect(band?.lower).toBeLessThan(logistic(score));
      expect(band?.upper).toBeGreaterThan(logistic(score));
    }
  });

  it('exists where none has failed, all have, or failures lie apart; not over a single value', () => {
    const uniforms = Float64Array.from({ length: 500 }, (_, i) => (i + 0.5) / 500);
    for (const failed of [() => false, () => true, (u: number) => u > 0.97]) {
      const along = riskAlong({ uniforms, failed: uniforms.map((u) => (failed(u) ? 2 : 0)) });
      for (const score of [-2.3263, 0, 2.3263]) {
        const { lower, estimate, upper } = along?.(score) ?? { lower: 2, estimate: 1, upper: 0 };
        expect(0 <= lower && lower <= estimate && estimate <= upper && upper <= 1).toBe(true);
      }
    }
    expect(riskAlong({ uniforms: new Float64Array(500).fill(0.3), failed: new Uint8Array(500) })).toBeNull();
  });
});

describe('a natural spline', () => {
  // By its definition: straight beyond the outer knots, second derivative continuous at the inner ones.
  it('is straight outside and smooth inside', () => {
    const row = naturalSpline([-1, 0, 2, 3]);
    const curve = (x: number) => row(x).reduce((sum, term, i) => sum + term * [0.3, -1, 2, 0.7][i], 0);
    const bend = (x: number, h = 1e-3) => (curve(x + h) - 2 * curve(x) + curve(x - h)) / h ** 2;
    expect(row(0)).toHaveLength(4);
    for (const x of [-4, -2, 3.5, 5]) expect(Math.abs(bend(x))).toBeLessThan(1e-6);
    for (const knot of [-1, 0, 2, 3]) expect(bend(knot - 2e-3) - bend(knot + 2e-3)).toBeCloseTo(0, 1);
    expect(Math.abs(bend(1))).toBeGreaterThan(0.5);
  });
});
