/** Gusts as the flight meets them: measured on series made node by node by the program. */
import { describe, expect, test } from 'vitest';
import { createDrawer } from '../../sim/draws/drawer.js';
import { beginAir, nextAir } from '../../sim/flight/air.js';
import { flyOn } from '../../sim/flight/course.js';
import { Slot } from '../../sim/model/scratch.js';
import { State } from '../../sim/model/state.js';
import { windAt20Feet } from '../../sim/model/wind.js';
import { expectWithin } from '../model/near.js';
import { courseFrom, scenarioNamed } from './bench.js';
import { QUIET, quietDraw } from './nominal-inputs.js';

const NODES = 50_000;
const HEIGHT = 50;
const SPEED = 100;
const STEP = 0.1;
const U10 = 5;

/** A can held at 50 m with an airspeed of nearly 100 m/s from the south, in a wind from the south of 5 m/s at 10 m. */
function windSeries(gustFactor: number): { along: Float64Array; across: Float64Array; up: Float64Array } {
  const { noise } = createDrawer(scenarioNamed('burdock'), 'gusts').draw('explore', 0);
  const { inputs } = quietDraw((changed) => {
    changed.wind.speed = U10;
    changed.wind.gust_factor = gustFactor;
  });
  const { craft, s } = courseFrom({ inputs, noise }, { height: HEIGHT, velocity: [SPEED, 0, 0] });
  beginAir(craft, s);
  const [along, across, up] = [new Float64Array(NODES), new Float64Array(NODES), new Float64Array(NODES)];
  for (let k = 0; k < NODES; k += 1) {
    nextAir(craft, s);
    along[k] = s.scratch[Slot.WindNorth]; // from the south: towards north
    across[k] = s.scratch[Slot.WindEast];
    up[k] = s.scratch[Slot.WindUp];
  }
  return { along, across, up };
}

const mean = (series: Float64Array) => series.reduce((sum, value) => sum + value, 0) / series.length;
function deviation(series: Float64Array, from: number): number {
  return Math.sqrt(series.reduce((sum, value) => sum + (value - from) ** 2, 0) / series.length);
}
/** Correlation from one node to the next, about the known mean. */
function nextCorrelation(series: Float64Array, from: number): number {
  let [product, square] = [0, 0];
  for (let k = 0; k + 1 < series.length; k += 1) {
    product += ((series[k] as number) - from) * ((series[k + 1] as number) - from);
    square += ((series[k] as number) - from) ** 2;
  }
  return product / square;
}

describe('gusts at 50 m, measured over 5000 s', () => {
  const { along, across, up } = windSeries(1);
  const meanWind = U10 * 5 ** (1 / 7);
  // Dryden, MIL-F-8785C, in feet: L_u 202.290 m, sigma_u/sigma_w 1.593436 (computed); L_w 50 m; sigma_w a tenth of W20.
  const sigma = 0.1 * windAt20Feet(U10, 1 / 7);
  const lengths = { along: 202.29, across: 202.29, up: 50 };
  const ratios = { along: 1.593436, across: 1.593436, up: 1 };
  const series = { along, across, up };
  const means = { along: meanWind, across: 0, up: 0 };

  test.each(['along', 'across', 'up'] as const)('have %s the wind the intensity of the formula in feet', (axis) => {
    // Of a first-order process: relative standard error of the variance sqrt(2 L/(V T)).
    const error = Math.sqrt((2 * lengths[axis]) / (SPEED * NODES * STEP)) / 2;
    const intensity = deviation(series[axis], means[axis]) / (ratios[axis] * sigma);
    expectWithin(intensity, 1, 4 * error);
    expectWithin(mean(series[axis]) - means[axis], 0, 4 * error * 2 * ratios[axis] * sigma);
  });

  test.each(['along', 'across', 'up'] as const)('lose correlation %s the wind as exp(-V dt/L)', (axis) => {
    const a = Math.exp((-SPEED * STEP) / lengths[axis]);
    const error = Math.sqrt((1 - a * a) / NODES);
    expectWithin(nextCorrelation(series[axis], means[axis]), a, 4 * error);
    if (axis === 'up') return;
    // Metres in the brackets of the formula would give L = 310.8 m: seen at once.
    expect(Math.abs(nextCorrelation(series[axis], means[axis]) - Math.exp((-SPEED * STEP) / 310.8))).toBeGreaterThan(
      4 * error,
    );
  });

  test('are independent of each other', () => {
    const product = along.reduce((sum, value, k) => sum + (value - meanWind) * (across[k] as number), 0) / NODES;
    const error = Math.sqrt(lengths.along / (SPEED * NODES * STEP));
    expectWithin(product / (ratios.along * sigma) ** 2, 0, 4 * error);
  });

  test('scale with the factor of the day', () => {
    const strong = windSeries(2);
    expectWithin(deviation(strong.up, 0) / deviation(up, 0), 2, 0.02);
  });
});

test('the mean wind blows from where it comes from, and grows with height as the power law', () => {
  for (const [from, east, north] of [
    [Math.PI, 0, 1],
    [Math.PI / 2, -1, 0],
    [Math.PI / 4, -Math.SQRT1_2, -Math.SQRT1_2],
  ] as const) {
    const draw = quietDraw((inputs) => {
      inputs.wind.from = from;
      inputs.wind.speed = U10;
    });
    const { s } = courseFrom(draw, { height: 300 });
    expectWithin(s.windTo[0] as number, 8.1281 * east, 1e-4); // 300 m: 8.1281 m/s (computed)
    expectWithin(s.windTo[1] as number, 8.1281 * north, 1e-4);
    expectWithin(s.windTo[2] as number, 0, 1e-12);
  }
});

test('a falling can is carried along: in the end it drifts with the wind and falls as in still air', () => {
  const inWind = (speed: number) =>
    quietDraw((inputs) => {
      inputs.wind.speed = speed;
      inputs.wind.from = 0.7;
      inputs.wind.shear_exponent = 0;
      inputs.arms.release_delay = -1;
    });
  const still = courseFrom(inWind(0), { height: 2000 });
  const carried = courseFrom(inWind(6), { height: 2000 });
  flyOn(still, 40);
  flyOn(carried, 40);
  expectWithin(carried.s.y[State.EastSpeed] as number, -6 * Math.sin(0.7), 1e-3);
  expectWithin(carried.s.y[State.NorthSpeed] as number, -6 * Math.cos(0.7), 1e-3);
  expectWithin(carried.s.y[State.UpSpeed] as number, still.s.y[State.UpSpeed] as number, 0.01);
});

test('a can meets the gusts: they shake a fall that is steady without them, on every axis', () => {
  const { noise } = createDrawer(scenarioNamed('burdock'), 'shaken').draw('explore', 0);
  const { inputs } = quietDraw((changed) => {
    changed.wind.speed = 6;
    changed.wind.from = 0.7;
    changed.wind.shear_exponent = 0;
    changed.arms.release_delay = -1;
  });
  const course = courseFrom({ inputs, noise }, { height: 2000 });
  const steady = courseFrom({ inputs, noise: QUIET }, { height: 2000 });
  flyOn(course, 20);
  flyOn(steady, 20);
  let most = [0, 0, 0];
  for (let t = 20; t < 40; t += 0.5) {
    flyOn(course, t);
    flyOn(steady, t);
    most = most.map((size, i) =>
      Math.max(
        size,
        Math.abs((course.s.y[State.EastSpeed + i] as number) - (steady.s.y[State.EastSpeed + i] as number)),
      ),
    );
  }
  for (const size of most) {
    expect(size).toBeGreaterThan(0.1);
    expect(size).toBeLessThan(6);
  }
});
