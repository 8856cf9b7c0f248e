/**
 * The sampler and a plain summary on a study whose answer is known: the additive models of JCGM 101:2008 (Supplement 1
 * to the GUM), clause 9.2: Y = X1 + X2 + X3 + X4. The interval ends are the exact ones to more digits than printed
 * there (3.92, 3.88, 17.0), recomputed.
 */
import { mean, quantileSorted, sampleStandardDeviation } from 'simple-statistics';
import { expect, test } from 'vitest';
import type { Distribution } from '../../sim/distributions/distribution.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { scenarioOf, varies } from './scenario.js';

const FLIGHTS = 100_000;

interface Model {
  readonly title: string;
  readonly inputs: readonly Distribution[];
  /** Standard uncertainty of Y and end of its symmetric 95 % coverage interval. */
  readonly uncertainty: number;
  readonly end: number;
  /** Density of Y at that end and kurtosis of Y (recomputed by convolution): they give the Monte Carlo error. */
  readonly density: number;
  readonly kurtosis: number;
}

const standardNormal: Distribution = { family: 'normal', mean: 0, sd: 1 };
const rectangular = (sd: number): Distribution => ({
  family: 'uniform',
  from: -sd * Math.sqrt(3),
  to: sd * Math.sqrt(3),
});
const one = rectangular(1);

const models: readonly Model[] = [
  {
    title: '9.2.2: four standard normal inputs',
    inputs: [standardNormal, standardNormal, standardNormal, standardNormal],
    uncertainty: 2,
    end: 3.919928,
    density: 0.029223,
    kurtosis: 3,
  },
  {
    title: '9.2.3: four rectangular inputs of unit variance',
    inputs: [one, one, one, one],
    uncertainty: 2,
    end: 3.879407,
    density: 0.03285,
    kurtosis: 2.7,
  },
  {
    title: '9.2.4: three of these and one ten times wider',
    inputs: [one, one, one, rectangular(10)],
    uncertainty: 10.148892,
    end: 17.015814,
    density: 0.016333,
    kurtosis: 1.8686,
  },
];

for (const { title, inputs, uncertainty, end, density, kurtosis } of models)
  test(`JCGM 101:2008, ${title}`, () => {
    const [x1, x2, x3, x4] = inputs.map((distribution) => varies(distribution));
    const paths = { 'site.elevation': x1, 'can.mass': x2, 'battery.capacity': x3, 'pad.wait': x4 };
    const drawer = createDrawer(scenarioOf({ inputs: paths }), 'JCGM 101');
    const sums = Array.from({ length: FLIGHTS }, (_, id) => {
      const { site, can, battery, pad } = drawer.draw('explore', id).inputs;
      return site.elevation + can.mass + battery.capacity + pad.wait;
    });
    // Five standard errors of a mean, of a standard deviation and of a quantile.
    const root = Math.sqrt(FLIGHTS);
    expect(Math.abs(mean(sums))).toBeLessThan((5 * uncertainty) / root);
    const deviation = sampleStandardDeviation(sums) - uncertainty;
    expect(Math.abs(deviation)).toBeLessThan((5 * uncertainty * Math.sqrt((kurtosis - 1) / 4)) / root);
    sums.sort((a, b) => a - b);
    const limit = (5 * Math.sqrt(0.025 * 0.975)) / density / root;
    expect(Math.abs(quantileSorted(sums, 0.975) - end)).toBeLessThan(limit);
    expect(Math.abs(quantileSorted(sums, 0.025) + end)).toBeLessThan(limit);
  });
