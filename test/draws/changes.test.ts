import { describe, expect, test } from 'vitest';
import { quantileOf } from '../../sim/distributions/law.js';
import type { Change } from '../../sim/draws/draw.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { fixed, scenarioOf, unmeasured, varies } from './scenario.js';

const INPUTS = {
  'can.mass': varies({ family: 'normal', mean: 0.61, sd: 0.005 }),
  'ejection.horizontal_speed': varies({ family: 'normal', mean: 0, sd: 8 }),
  'pilot.reaction': varies({
    family: 'log-normal',
    median: unmeasured({ family: 'log-normal', median: 1.18, spread: 0.2 }),
    spread: 0.44,
  }),
  'pilot.lapse': unmeasured({ family: 'trials', trials: 3, failures: 1 }),
  'rotors.dead': fixed(0.3),
  'wind.speed': varies({ family: 'weibull', shape: 2, scale: 3 }),
  'wind.gust_factor': varies({ family: 'log-normal', median: 1, spread: 0.3 }),
};
const CORRELATIONS = [{ between: ['wind.speed', 'wind.gust_factor'], rank: 0.8 }] as const;

const drawer = createDrawer(scenarioOf({ inputs: INPUTS, correlations: CORRELATIONS, leftOut: ['video'] }), 'seed');
const flights = (...changes: Change[]) =>
  Array.from({ length: 300 }, (_, id) => structuredClone(drawer.draw('explore', id, changes).inputs));
const plain = flights();

describe('holding an input at a quantile', () => {
  test('gives it the quantile of its own distribution and leaves the rest as drawn', () => {
    flights({ path: 'can.mass', quantile: 0.9 }).forEach((inputs, id) => {
      const mass = quantileOf(INPUTS['can.mass'], 0.9);
      expect(inputs).toEqual({ ...plain[id], can: { ...plain[id].can, mass } });
    });
  });

  test('holds all labels by the path, or one of them by its name', () => {
    const held = quantileOf(INPUTS['ejection.horizontal_speed'], 0.1);
    const both = flights({ path: 'ejection.horizontal_speed', quantile: 0.1 });
    const north = flights({ path: 'ejection.horizontal_speed[north]', quantile: 0.1 });
    both.forEach(({ ejection }) => {
      expect(ejection.horizontal_speed).toEqual([held, held]);
    });
    north.forEach(({ ejection }, id) => {
      expect(ejection.horizontal_speed).toEqual([plain[id].ejection.horizontal_speed[0], held]);
    });
  });

  test('holds luck', () => {
    const [first] = flights({ path: 'ejection.attitude', quantile: 0.5 });
    expect(first.ejection.attitude).toEqual([0.5, 0.5, 0.5]);
  });

  test('of a correlated input leaves its partners as drawn', () => {
    flights({ path: 'wind.speed', quantile: 0.5 }).forEach((inputs, id) => {
      expect(inputs.wind.gust_factor).toBe(plain[id].wind.gust_factor);
      expect(inputs.wind.speed).toBe(quantileOf(INPUTS['wind.speed'], 0.5));
    });
  });

  test('leaves an unmeasured parameter of it as drawn, unless that is named too', () => {
    const ids = plain.map((_, id) => id);
    const medians = drawer.uniforms('pilot.reaction.median', 'explore', ids);
    const normal = varies({ family: 'normal', mean: 0, sd: 1 });
    flights({ path: 'pilot.reaction', quantile: 0.5 }).forEach((inputs, id) => {
      expect(inputs.pilot.reaction).toBeCloseTo(1.18 * Math.exp(0.2 * quantileOf(normal, medians[id])), 12);
    });
    const own = drawer.uniforms('pilot.reaction', 'explore', ids);
    flights({ path: 'pilot.reaction.median', quantile: 0.5 }).forEach((inputs, id) => {
      expect(inputs.pilot.reaction).toBeCloseTo(1.18 * Math.exp(0.44 * quantileOf(normal, own[id])), 12);
    });
  });

  test('at the ends gives no infinity', () => {
    for (const quantile of [0, 1]) {
      const [{ can }] = flights({ path: 'can.mass', quantile });
      expect(can.mass).toSatisfy(Number.isFinite);
    }
  });

  test('is forgotten with the next flight', () => {
    flights({ path: 'can.mass', quantile: 0.9 }, { path: 'noise.gusts', quantile: 0.5 });
    const { inputs, noise } = drawer.draw('explore', 4);
    expect(inputs).toEqual(plain[4]);
    expect(noise.gusts.at(0, 0)).not.toBe(0);
  });
});

describe('holding a chance', () => {
  const lapses = (...changes: Change[]) => flights(...changes).filter(({ pilot }) => pilot.lapse).length;

  test('at its median: no event where the chance is under one half', () => {
    expect(lapses()).toBeGreaterThan(50);
    expect(lapses({ path: 'pilot.lapse', quantile: 0.5 })).toBe(0);
    expect(flights({ path: 'rotors.dead', quantile: 0.5 }).some(({ rotors }) => rotors.dead.includes(true))).toBe(
      false,
    );
  });

  test('low is the better end, high the worse', () => {
    expect(lapses({ path: 'pilot.lapse', quantile: 0.05 })).toBe(0);
    expect(lapses({ path: 'pilot.lapse', quantile: 0.95 })).toBe(300);
    const [{ rotors }] = flights({ path: 'rotors.dead', quantile: 0.71 });
    expect(rotors.dead).toEqual([true, true, true, true]);
    expect(flights({ path: 'rotors.dead', quantile: 0.69 })[0].rotors.dead).toEqual([false, false, false, false]);
  });

  test('of an event that is likelier than not: the median flight has it', () => {
    const likely = createDrawer(scenarioOf({ inputs: { 'rotors.dead': fixed(0.6) } }), 's');
    const { rotors } = likely.draw('explore', 0, [{ path: 'rotors.dead', quantile: 0.5 }]).inputs;
    expect(rotors.dead).toEqual([true, true, true, true]);
  });

  test('by "#event" decides the event alone, for one label or for all', () => {
    const [one] = flights({ path: 'rotors.dead#event[rotor 2]', quantile: 0.9 });
    expect(one.rotors.dead[1]).toBe(true);
    const [all] = flights({ path: 'rotors.dead#event', quantile: 0.9 });
    expect(all.rotors.dead).toEqual([true, true, true, true]);
  });

  test('by "#chance" sets how likely it is and leaves the event to luck', () => {
    const chance = quantileOf(INPUTS['pilot.lapse'], 0.75);
    const events = drawer.uniforms(
      'pilot.lapse#event',
      'explore',
      plain.map((_, id) => id),
    );
    flights({ path: 'pilot.lapse#chance', quantile: 0.75 }).forEach(({ pilot }, id) => {
      expect(pilot.lapse).toBe(1 - events[id] < chance);
    });
    expect(flights({ path: 'rotors.dead#chance', quantile: 0.75 })).toEqual(plain);
  });
});

describe('holding noise', () => {
  test('makes it zero whatever the quantile, and leaves inputs and other noise as drawn', () => {
    const throttle = drawer.draw('explore', 9).noise.throttle.at(5, 0);
    for (const quantile of [0.1, 0.5]) {
      const { inputs, noise } = drawer.draw('explore', 9, [{ path: 'noise.gusts', quantile }]);
      expect([noise.gusts.at(0, 0), noise.gusts.at(77, 2)]).toEqual([0, 0]);
      expect(noise.throttle.at(5, 0)).toBe(throttle);
      expect(inputs).toEqual(plain[9]);
    }
    const { noise } = drawer.draw('explore', 9, [
      { path: 'noise.throttle', quantile: 0.5 },
      { path: 'noise.call_out', quantile: 0.5 },
      { path: 'noise.outages', quantile: 0.5 },
    ]);
    expect([noise.throttle.at(5, 0), noise.callOut.at(5, 0), noise.outages.at(0, 1)]).toEqual([0, 0, 0]);
    expect(noise.outages.at(0, 0)).toBeGreaterThan(1e9);
  });
});

describe('names', () => {
  test('of inputs that are fixed or left out are no error and no change', () => {
    for (const path of ['can.diameter', 'video.limit', 'can.mass.mean', 'arms.stuck#chance'])
      expect(flights({ path, quantile: 0.2 })[0]).toEqual(plain[0]);
  });

  test('that the definition does not know, and quantiles that are none, are bugs', () => {
    for (const path of ['can.maas', 'can', 'noise', 'can.massive', ''])
      expect(() => drawer.draw('explore', 0, [{ path, quantile: 0.5 }]), path).toThrow(/no input/);
    for (const quantile of [-0.1, 1.1, Number.NaN])
      expect(() => drawer.draw('explore', 0, [{ path: 'can.mass', quantile }])).toThrow(/not from 0 to 1/);
  });
});
