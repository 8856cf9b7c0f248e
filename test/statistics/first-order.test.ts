import seedrandom from 'seedrandom';
import { describe, expect, it } from 'vitest';
import { jeffreysLaw, varianceLeft } from '../../sim/statistics/beta-law.js';
import { firstOrder } from '../../sim/statistics/first-order.js';

function uniforms(seed: string, n: number): Float64Array {
  const random = seedrandom(seed);
  return Float64Array.from({ length: n }, () => random.double());
}

describe('first-order share on given data', () => {
  // Ishigami, a = 7, b = 0.1: closed form V = 13.844588, shares .313905, .442411, 0 (Ishigami and Homma 1990).
  it('finds the shares of the Ishigami function', () => {
    const n = 40000;
    const inputs = ['one', 'two', 'three'].map((name) =>
      uniforms(`ishigami ${name}`, n).map((u) => Math.PI * (2 * u - 1)),
    );
    const [x, y, z] = inputs;
    const output = x.map((_, i) => Math.sin(x[i]) + 7 * Math.sin(y[i]) ** 2 + 0.1 * z[i] ** 4 * Math.sin(x[i]));
    const found = inputs.map((input) => firstOrder(input, output, 100));
    // The standard error of a share is about 2 sqrt(S) / sqrt(n) = 0.006; the loss in 100 bins under 0.001.
    expect(Math.abs((found[0]?.share ?? 0) - 0.313905)).toBeLessThan(0.015);
    expect(Math.abs((found[1]?.share ?? 0) - 0.442411)).toBeLessThan(0.015);
    expect(found[2]?.share).toBeLessThan(0.004);
    expect(found[2]?.pValue).toBeGreaterThan(0.01);
    const variance = (found[0]?.variance ?? 0) / (found[0]?.share ?? 1);
    expect(Math.abs(variance / 13.844588 - 1)).toBeLessThan(0.03);
  });

  it('is not biased upwards by the scatter of the bin means', () => {
    // Without the correction a dummy input would show (bins - 1)/n = 0.0475 in the mean; the truncation at 0 leaves
    // about 0.4 standard deviations, sqrt(2 * 19)/400 * 0.4 = 0.006.
    let sum = 0;
    for (let study = 0; study < 200; study++) {
      const output = uniforms(`output ${study}`, 400).map((u) => (u < 0.1 ? 1 : 0));
      sum += firstOrder(uniforms(`dummy ${study}`, 400), output)?.share ?? 0;
    }
    expect(sum / 200).toBeLessThan(0.012);
  });

  it('has uniform p-values for dummies: 5 % of them under 5 %', () => {
    let small = 0;
    for (let study = 0; study < 400; study++) {
      const output = uniforms(`events ${study}`, 2000).map((u) => (u < 0.06 ? 1 : 0));
      if ((firstOrder(uniforms(`nothing ${study}`, 2000), output)?.pValue ?? 1) < 0.05) small += 1;
    }
    // Binomial(400, 0.05): 20 +- 3 standard deviations of 4.4.
    expect(small).toBeGreaterThanOrEqual(7);
    expect(small).toBeLessThanOrEqual(33);
  });

  it('is 1 for the output itself, and not said without variance or with too few flights', () => {
    const line = Float64Array.from({ length: 1000 }, (_, i) => i);
    expect(firstOrder(line, line, 50)?.share).toBeGreaterThan(0.999);
    expect(firstOrder(line, new Float64Array(1000))).toBeNull();
    expect(firstOrder(line.subarray(0, 199), line.subarray(0, 199))).toBeNull();
  });
});

describe('trials', () => {
  it('leave the share of the variance that the mean over their outcomes gives', () => {
    // Uniform law, one trial: the posterior is Beta(2, 1) or Beta(1, 2), variance 1/18 either way, against 1/12.
    expect(varianceLeft({ a: 1, b: 1 }, 1)).toBeCloseTo(2 / 3, 12);
    // Jeffreys 1 of 30: Beta(1.5, 29.5); 31 more trials halve it.
    expect(varianceLeft(jeffreysLaw(1, 30), 31)).toBe(0.5);
  });
});
