/**
 * Learning in waves on a toy with a closed form: scores x ~ N(0, I); a flight shows y = B x + N(0, S), a log its value with an
 * error besides. K logs of a truth leave x ~ N(V B' C^-1 ybar, V), V = (I + B' C^-1 B)^-1, C = (S + E)/K: the normal law of
 * a linear model, as in any text.
 */
import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import { ENOUGH_EFFECTIVE, type Gathered, gatherWorlds, type WorldSource } from '../../sim/learn/gather.js';
import { LEAST_EFFECTIVE } from '../../sim/learn/learn.js';
import { logCorrections, logDensityRatio, movedScores, type Proposal } from '../../sim/learn/waves.js';
import { jointLogLikelihoods, type Observation } from '../../sim/learn/weigh.js';
import { inverseOf, quadraticForm } from '../../sim/statistics/symmetric.js';
import { effectiveSize, weightedMoments, weightedQuantile, weightsOf } from '../../sim/statistics/weighted.js';
import { figure, howMany, widened } from '../in-full.js';

function normals(seed: string): () => number {
  const random = seedrandom.alea(seed);
  return () => {
    const u = Math.max(random.double(), 2 ** -53);
    return standardNormalQuantile(u, 1 - u);
  };
}

const EACH = 25;
const LOGS = 5;
/** Three quantities of eight scores; the last three scores do nothing. */
const SLOPES = [
  [1, 0.5, 0, 0, 0.2, 0, 0, 0],
  [0, 1, -0.6, 0, 0, 0, 0, 0],
  [0.3, 0, 0, 1, 0.4, 0, 0, 0],
];
/** Root of the covariance of one flight's scatter: three quantities that go together. */
const SCATTER = [
  [0.12, 0, 0],
  [0.06, 0.1, 0],
  [-0.04, 0.02, 0.1],
];
const ERROR = 0.02;
const TURNS = howMany(4, 10);
const TRUTHS = howMany(14, 40);

const shown = (x: ArrayLike<number>, normal: () => number) => {
  const e = [normal(), normal(), normal()];
  return SLOPES.map((slopes, i) => slopes.reduce((sum, slope, p) => sum + slope * x[p], 0) + along(SCATTER[i], e));
};
const along = (row: readonly number[], e: readonly number[]) => row.reduce((sum, one, j) => sum + one * e[j], 0);

function logsOf(x: ArrayLike<number>, normal: () => number): readonly (readonly Observation[])[] {
  return Array.from({ length: LOGS }, () =>
    shown(x, normal).map((value) => ({ value: value + ERROR * normal(), error: ERROR })),
  );
}

/** Flies the toy: each world's numbers come from its own streams, so that the same seed gives the same worlds. */
function toySource(seed: string, logs: readonly (readonly Observation[])[], stopAfter = Number.POSITIVE_INFINITY) {
  const kept: number[][] = [[], [], []];
  const naturalOf = (world: number) => Float64Array.from({ length: 8 }, normals(`${seed} world ${world}`));
  const source: WorldSource = {
    each: EACH,
    natural: (from, count) => Array.from({ length: count }, (_, i) => naturalOf(from + i)),
    async fly(from, count, scores) {
      const able = Math.max(0, Math.min(count, stopAfter - from));
      for (let i = 0; i < able; i++) {
        const normal = normals(`${seed} flights ${from + i}`);
        for (let flight = 0; flight < EACH; flight++)
          shown(scores?.[i] ?? naturalOf(from + i), normal).forEach((value, q) => {
            kept[q].push(value);
          });
      }
      return able;
    },
    groups: () => [{ values: kept.map((one) => Float64Array.from(one)), logs }],
    within: () => true,
  };
  return source;
}

/** Each score by itself, and the three directions that the logs show. */
const DIRECTIONS = [...SLOPES[0].map((_, p) => SLOPES[0].map((_, q) => (p === q ? 1 : 0))), ...SLOPES];

/** Mean and covariance of the scores by the closed form. */
function closedForm(logs: readonly (readonly Observation[])[]) {
  const one = SCATTER.map((a, i) => SCATTER.map((b, j) => (along(a, b) + (i === j ? countedError() : 0)) / LOGS));
  const inverse = inverseOf(one)?.inverse ?? [];
  const average = SLOPES.map((_, q) => logs.reduce((sum, log) => sum + log[q].value / LOGS, 0));
  const pulled = SLOPES[0].map((_, p) => inverse.map((row) => row.reduce((sum, v, j) => sum + v * SLOPES[j][p], 0)));
  const precision = pulled.map((row, p) =>
    pulled.map((_, q) => row.reduce((sum, v, i) => sum + v * SLOPES[i][q], p === q ? 1 : 0)),
  );
  const covariance = inverseOf(precision)?.inverse ?? [];
  const pull = pulled.map((row) => along(row, average));
  return { mean: covariance.map((row) => along(row, pull)), covariance };
}

/** Errors count by the greatest eigenvalue of the correlations, here from the characteristic polynomial's root. */
function countedError(): number {
  const s = SCATTER.map((a) => SCATTER.map((b) => along(a, b)));
  const r = (i: number, j: number) => s[i][j] / Math.sqrt(s[i][i] * s[j][j]);
  const [a, b, c] = [r(0, 1), r(0, 2), r(1, 2)];
  // (1 - l)^3 - (1 - l)(a^2 + b^2 + c^2) + 2 a b c = 0; with t = l - 1: t^3 - t p - 2 a b c = 0, greatest root by cosine.
  const p = a ** 2 + b ** 2 + c ** 2;
  const t = 2 * Math.sqrt(p / 3) * Math.cos(Math.acos((a * b * c) / (p / 3) ** 1.5) / 3);
  return (1 + t) * ERROR ** 2;
}

const weightsIn = ({ logWeights }: Gathered) => weightsOf(logWeights);

describe('worlds in waves', () => {
  it('give the closed-form posterior where the plausible worlds alone are too few to conclude from', async () => {
    let [plain, fewest, means, spreads, ratios, bias] = [0, Number.POSITIVE_INFINITY, 0, 0, 0, 0];
    for (let turn = 0; turn < TURNS; turn++) {
      const normal = normals(`truth ${turn}`);
      const logs = logsOf(
        Array.from({ length: 8 }, () => 0.8 * normal()),
        normal,
      );
      const gathered = await gatherWorlds(toySource(`toy ${turn}`, logs), 1000);
      const first = gathered.logWeights.subarray(0, 1000).map((one, i) => one - gathered.corrections[i]);
      plain = Math.max(plain, effectiveSize(weightsOf(first)));
      fewest = Math.min(fewest, gathered.effective);
      const weights = weightsIn(gathered);
      const { mean, covariance } = closedForm(logs);
      DIRECTIONS.forEach((direction, place) => {
        const exact = along(direction, mean);
        const sd = Math.sqrt(quadraticForm(covariance, direction));
        const found = weightedMoments(
          gathered.scores.map((score) => along(direction, [...score])),
          weights,
        );
        means += (((found.mean - exact) / sd) ** 2 * gathered.effective) / (DIRECTIONS.length * TURNS);
        spreads += ((found.sd / sd - 1) ** 2 * 2 * gathered.effective) / (DIRECTIONS.length * TURNS);
        bias += (found.mean - exact) / sd / (DIRECTIONS.length * TURNS);
        if (place >= 8) ratios += found.sd / sd / (3 * TURNS);
      });
    }
    expect(plain).toBeLessThan(LEAST_EFFECTIVE);
    expect(fewest).toBeGreaterThan(ENOUGH_EFFECTIVE);
    figure('squared errors of means and of spreads, lean, ratio of spreads', means, spreads, bias, ratios);
    // In standard errors, sd/sqrt(effective) of a mean and sd/sqrt(2 effective) of a spread, which are rough where the
    // values go with the weights: squares near 1 on the average (1.5, no source), and no lean to one side.
    expect(means).toBeLessThan(1.5);
    expect(spreads).toBeLessThan(1.5);
    expect(Math.abs(bias)).toBeLessThan(0.05);
    // With the scatter of the worlds' means counted once too often, the spreads would be sqrt(1 + 5/25) = 1.10 of it.
    expect(Math.abs(ratios - 1)).toBeLessThan(0.05);
  });

  it('cover the truth as often as stated', async () => {
    let [covered, of] = [0, 0];
    for (let turn = 0; turn < TRUTHS; turn++) {
      const normal = normals(`covered ${turn}`);
      const truth = Float64Array.from({ length: 8 }, normal);
      const gathered = await gatherWorlds(toySource(`cover ${turn}`, logsOf(truth, normal)), 400);
      const weights = weightsIn(gathered);
      expect(gathered.effective).toBeGreaterThan(LEAST_EFFECTIVE);
      for (const direction of DIRECTIONS) {
        const values = gathered.scores.map((score) => along(direction, [...score]));
        const own = along(direction, [...truth]);
        const [low, high] = [0.05, 0.95].map((share) => weightedQuantile(values, weights, share));
        of += 1;
        if (low <= own && own <= high) covered += 1;
      }
    }
    figure('directions that hold their truth', covered, 'of', of);
    // 396 of 440 are expected in full; three standard deviations of as many independent ones are 19, of 40 truths at most 63.
    expect(covered / of).toBeGreaterThan(0.9 - widened(0.05, TRUTHS, 40));
    expect(covered / of).toBeLessThan(0.9 + widened(0.05, TRUTHS, 40));
  });

  it('are the same twice, and none follow where the first are enough, or where the logs lie outside', async () => {
    const normal = normals('twice');
    const logs = logsOf(new Float64Array(8), normal);
    const [one, two] = [await gatherWorlds(toySource('t', logs), 300), await gatherWorlds(toySource('t', logs), 300)];
    expect(one).toEqual(two);
    expect(one.waves.length).toBeGreaterThan(1);
    const loose = logs.slice(0, 1).map((log) => log.map((shows) => ({ ...shows, error: 3 })));
    expect((await gatherWorlds(toySource('t', loose), 300)).waves).toHaveLength(1);
    expect((await gatherWorlds({ ...toySource('t', logs), within: () => false }, 300)).waves).toHaveLength(1);
  });

  it('stopped, keep the worlds that were flown whole, with the share of each wave as flown', async () => {
    const normal = normals('stopped');
    const logs = logsOf(new Float64Array(8), normal);
    const gathered = await gatherWorlds(toySource('s', logs, 350), 300);
    expect(gathered).toMatchObject({ stopped: true, waves: [{ worlds: 300 }, { worlds: 50 }] });
    expect(gathered.scores).toHaveLength(350);
    const none = await gatherWorlds(toySource('s', logs, 0), 300);
    expect(none).toMatchObject({ stopped: true, effective: 0, waves: [] });
  });
});

describe('a proposal', () => {
  const proposal: Proposal = {
    mean: Float64Array.from([1, -2]),
    root: Float64Array.from([2, 0, 0.5, 1.5]),
  };

  it("moves a standard normal vector to its mean and covariance, (L L')^-1", () => {
    const normal = normals('moved');
    const moved = Array.from({ length: 20_000 }, () => movedScores(proposal, Float64Array.from([normal(), normal()])));
    const even = new Float64Array(20_000).fill(1 / 20_000);
    const { inverse } = inverseOf([
      [4, 1],
      [1, 2.5],
    ]) ?? { inverse: [] };
    [0, 1].forEach((p) => {
      const { mean, sd } = weightedMoments(
        moved.map((one) => one[p]),
        even,
      );
      expect(mean).toBeCloseTo(proposal.mean[p], 1);
      expect(sd).toBeCloseTo(Math.sqrt(inverse[p][p]), 1);
    });
  });

  it('has the density of its normal law, and corrections that give back the plausible law', () => {
    // ln N(m; m, (LL')^-1) - ln N(m; 0, I) = ln |L| + m'm/2.
    expect(logDensityRatio(proposal, proposal.mean)).toBeCloseTo(Math.log(2 * 1.5) + 5 / 2, 12);
    const normal = normals('corrected');
    const scores = Array.from({ length: 8000 }, (_, i) => {
      const natural = Float64Array.from([normal(), normal()]);
      return i < 4000 ? natural : movedScores(proposal, natural);
    });
    const corrections = logCorrections(scores, [
      { worlds: 4000, proposal: null },
      { worlds: 4000, proposal },
    ]);
    const weights = weightsOf(corrections);
    const { mean, sd } = weightedMoments(
      scores.map((one) => one[1]),
      weights,
    );
    expect(mean).toBeCloseTo(0, 1);
    expect(sd).toBeCloseTo(1, 1);
    // No weight is over all worlds to those of the first wave.
    expect(Math.max(...corrections)).toBeLessThanOrEqual(Math.log(2));
  });
});

describe('the likelihood of several logs', () => {
  it('averages over the scatter of the means of few flights to that of the true mean', () => {
    // A world of mean 0, flown again and again; S = 1: the mean likelihood is that of y1..y5 ~ N(0, 1 + 0.3^2).
    const normal = normals('again');
    const worlds = 20_000;
    const values = Float64Array.from({ length: worlds * EACH }, normal);
    // Their mean is 0, where a law too wide shows most: with S alone it would be ln sqrt(0.218/0.258) = -0.084 off.
    const seen = [0.9, -0.2, -0.4, 0.3, -0.6];
    const logs = jointLogLikelihoods(
      { worlds, each: EACH, values: [values] },
      seen.map((value) => [{ value, error: 0.3 }]),
    );
    const mean = logs.reduce((sum, one) => sum + Math.exp(one), 0) / worlds;
    const shownShare = LOGS * Math.log((EACH + 0.5) / (EACH + 1));
    const exact = seen.reduce((sum, y) => sum - y ** 2 / (2 * 1.09) - 0.5 * Math.log(2 * Math.PI * 1.09), shownShare);
    expect(Math.log(mean)).toBeCloseTo(exact, 1);
  });

  it('counts a quantity that is told twice once, its error too', () => {
    const normal = normals('told twice');
    const worlds = 300;
    const means = Float64Array.from({ length: worlds }, normal);
    const values = Float64Array.from({ length: worlds * EACH }, (_, i) => means[Math.floor(i / EACH)] + 0.2 * normal());
    const log = { value: 0.5, error: 0.4 };
    const weigh = (times: number) =>
      weightsOf(
        jointLogLikelihoods({ worlds, each: EACH, values: Array.from({ length: times }, () => values) }, [
          Array.from({ length: times }, () => log),
        ]),
      );
    const [once, twice] = [weigh(1), weigh(2)];
    twice.forEach((one, i) => {
      expect(one).toBeCloseTo(once[i], 9);
    });
  });
});
