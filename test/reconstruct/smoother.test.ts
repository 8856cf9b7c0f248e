import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { standardNormalQuantile } from '../../sim/distributions/families/normal.js';
import { logLikelihoodOf, type SmootherInput, smooth } from '../../sim/reconstruct/smoother.js';

function normals(seed: string): () => number {
  const random = seedrandom.alea(seed);
  return () => {
    const u = Math.max(random.double(), 2 ** -53);
    return standardNormalQuantile(u, 1 - u);
  };
}

function steady(height: Float64Array, changes: Partial<SmootherInput> = {}): SmootherInput {
  const even = (value: number) => new Float64Array(height.length).fill(value);
  return {
    step: 0.1,
    acceleration: even(0),
    accelerationError: even(0.3),
    accelerationNoise: even(0.1),
    errorTime: even(1),
    height,
    heightNoise: 0.8,
    flow: 0,
    sideways: even(0),
    priors: {
      height: { mean: 700, sd: 35 },
      speed: { mean: -25, sd: 3 },
      error: { mean: 0, sd: 0.3 },
      bias: { mean: 0, sd: 0.1 },
      zero: { mean: 2, sd: 0.4 },
      scale: { mean: 0.07, sd: 0.012 },
    },
    last: null,
    ...changes,
  };
}

/** ln of the density of a normal vector with mean 0, by elimination. */
function logDensity(values: readonly number[], covariance: readonly (readonly number[])[]): number {
  const a = covariance.map((row, i) => [...row, values[i]]);
  let log = -0.5 * values.length * Math.log(2 * Math.PI);
  let form = 0;
  for (let i = 0; i < values.length; i++) {
    log -= 0.5 * Math.log(a[i][i]);
    form += a[i][values.length] ** 2 / a[i][i];
    for (let j = i + 1; j < values.length; j++) {
      const factor = a[j][i] / a[i][i];
      for (let k = i; k <= values.length; k++) a[j][k] -= factor * a[i][k];
    }
  }
  return log - 0.5 * form;
}

describe('the smoother', () => {
  it('gives heights the density of the joint normal law that the equations make of them', () => {
    // Readings from heights 700, 697.6 ...; with no acceleration but the errors, in the state (y, u, e, b).
    const readings = [652, 650.5, 648.9, 645.1, 644];
    const input = steady(Float64Array.from(readings));
    const { step, priors } = input;
    const left = 1 - priors.scale.mean;
    const keep = Math.exp(-step);
    const f = [
      [1, step, (left * step ** 2) / 2, (left * step ** 2) / 2],
      [0, 1, left * step, left * step],
      [0, 0, keep, 0],
      [0, 0, 0, 1],
    ];
    const times = (a: number[][], b: number[][]) =>
      a.map((row) => b[0].map((_, j) => row.reduce((sum, one, k) => sum + one * b[k][j], 0)));
    const turned = (a: number[][]) => a[0].map((_, j) => a.map((row) => row[j]));
    const noise = (0.1 * step) ** 2;
    const q = [
      [(noise * step ** 2) / 4, (noise * step) / 2, 0, 0],
      [(noise * step) / 2, noise, 0, 0],
      [0, 0, 0.3 ** 2 * (1 - keep ** 2), 0],
      [0, 0, 0, 0],
    ];
    const [height, speed, scale] = [priors.height, priors.speed, priors.scale].map(({ sd }) => sd ** 2);
    const byScale = 700 * -25 * scale;
    let p = [
      [height * left ** 2 + 700 ** 2 * scale + 0.4 ** 2, byScale, 0, 0],
      [byScale, speed * left ** 2 + 25 ** 2 * scale, 0, 0],
      [0, 0, 0.3 ** 2, 0],
      [0, 0, 0, 0.1 ** 2],
    ];
    // Covariance of the state at one node with that at each later one: F^(j - i) P_i.
    const joint = readings.map(() => readings.map(() => 0));
    for (let i = 0; i < readings.length; i++) {
      let ahead = p;
      for (let j = i; j < readings.length; j++) {
        joint[i][j] = ahead[0][0] + (i === j ? 0.8 ** 2 : 0);
        joint[j][i] = joint[i][j];
        ahead = times(f, ahead);
      }
      p = times(times(f, p), turned(f)).map((row, a) => row.map((one, b) => one + q[a][b]));
    }
    const off = readings.map((one, k) => one - (700 * left + 2 - 25 * left * step * k));
    expect(logLikelihoodOf(input)).toBeCloseTo(logDensity(off, joint), 4);
  });

  it('does not take noise for knowledge: after 400 readings warm air is as unknown as before', () => {
    const normal = normals('warm air');
    let [off, wide] = [0, 0];
    for (let turn = 0; turn < 30; turn++) {
      // 650 m down to 50 m at a steady 15 m/s through a barometer that reads 7 % low, as expected.
      const height = Float64Array.from({ length: 400 }, (_, k) => (650 - 1.5 * k) * 0.93 + 2 + 0.8 * normal());
      const begun = { height: { mean: 650, sd: 35 }, speed: { mean: -15, sd: 3 } };
      const { mean, sd } = smooth(steady(height, { priors: { ...steady(height).priors, ...begun } }), 0, 'warm');
      off += (mean.height[100] - 500) / sd.height[100] / 30;
      wide += sd.height[100] / 30;
    }
    // 1.2 % of 500 m over 0.93, and the zero of 0.4 m.
    expect(wide / Math.hypot((500 * 0.012) / 0.93, 0.4)).toBeCloseTo(1, 1);
    expect(Math.abs(off)).toBeLessThan(0.1);
  });

  it('draws courses that scatter as it says', () => {
    const normal = normals('courses');
    const height = Float64Array.from({ length: 100 }, (_, k) => (500 - 2.5 * k) * 0.93 + 2 + 0.8 * normal());
    const { mean, sd, courses } = smooth(steady(height), 400, 'courses');
    for (const k of [0, 50, 99]) {
      const offs = courses.map((one) => (one.speed[k] - mean.speed[k]) / sd.speed[k]);
      const spread = Math.sqrt(offs.reduce((sum, one) => sum + one ** 2, 0) / offs.length);
      expect(Math.abs(spread - 1)).toBeLessThan(0.12);
    }
  });
});
