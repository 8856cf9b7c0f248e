import { mean, sampleCorrelation } from 'simple-statistics';
import { describe, expect, test } from 'vitest';
import { quantileOf } from '../../sim/distributions/law.js';
import { FLIGHTS_PER_WORLD, type SetName } from '../../sim/draws/draw.js';
import { createDrawer, nominalDraw } from '../../sim/draws/drawer.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { leafPaths } from '../../sim/scenario/definition/leaves.js';
import { fixed, type Stated, scenarioOf, unmeasured, varies } from './scenario.js';

const SOME = {
  'can.mass': varies({ family: 'normal', mean: 0.61, sd: 0.005 }),
  'can.drag_factor': unmeasured({ family: 'log-normal', median: 1, spread: 0.08 }),
  'ejection.horizontal_speed': varies({ family: 'normal', mean: 0, sd: 8 }),
  'pilot.reaction': varies({
    family: 'log-normal',
    median: unmeasured({ family: 'log-normal', median: 1.18, spread: 0.2 }),
    spread: 0.44,
  }),
  'pilot.lapse': unmeasured({ family: 'trials', trials: 30, failures: 3 }),
  'rotors.dead': fixed(0.1),
} as const;

const draw = (stated: Stated, seed = 'seed') => createDrawer(scenarioOf(stated), seed);
const copy = (inputs: FlightInputs) => structuredClone(inputs);

describe('the object of inputs', () => {
  test('has every leaf of the definition at its path', () => {
    const { inputs } = draw({}).draw('explore', 0);
    for (const { path, entry } of leafPaths()) {
      const value = path.split('.').reduce<unknown>((at, key) => (at as Record<string, unknown>)[key], inputs);
      const expected = {
        quantity:
          entry.shape === 'quantity' && entry.optional
            ? null
            : entry.shape === 'quantity' && entry.each
              ? entry.each.map(() => 1)
              : 1,
        chance: entry.shape === 'chance' && entry.each ? entry.each.map(() => false) : false,
        choice: entry.shape === 'choice' ? Object.keys(entry.options)[0] : '',
        text: `text of ${path}`,
        table: null,
        list: [],
        luck: null,
      }[entry.shape];
      if (entry.shape === 'luck') expect(value, path).toHaveLength(entry.each.length);
      else expect(value, path).toEqual(expected);
    }
  });

  test('has null for sections left out, and the settings as they stand', () => {
    const scenario = scenarioOf({ leftOut: ['parachute', 'criteria.recovery_circle'] });
    const keepOut = [{ name: 'road', east: 10, north: 0, radius: 5 }];
    const table = [
      [0, 3],
      [1, 4.2],
    ];
    const settings = { ...scenario.settings, 'site.keep_out': keepOut, 'battery.open_circuit': table };
    const { inputs } = createDrawer({ ...scenario, settings }, 's').draw('explore', 0);
    expect(inputs.parachute).toBeNull();
    expect(inputs.criteria.recovery_circle).toBeNull();
    expect(inputs.video?.limit).toBe(1);
    expect(inputs.site.keep_out).toEqual(keepOut);
    expect(inputs.battery.open_circuit).toEqual(table);
  });

  test('takes an optional quantity where the scenario has one', () => {
    const { inputs } = draw({ inputs: { 'site.pressure': fixed(88_000) } }).draw('explore', 0);
    expect(inputs.site.pressure).toBe(88_000);
  });

  test('is the same object in every flight, with nothing but numbers and events rewritten', () => {
    const drawer = draw({ inputs: SOME });
    const first = drawer.draw('explore', 0);
    const { wind } = first.inputs;
    const second = drawer.draw('confirm', 5);
    expect(second).toBe(first);
    expect(second.inputs.wind).toBe(wind);
  });

  test('cannot be built from a scenario that lacks an input which must be there', () => {
    const scenario = scenarioOf({});
    const inputs = scenario.inputs.filter(({ path }) => path !== 'can.mass');
    expect(() => createDrawer({ ...scenario, inputs }, 's')).toThrow(/no can\.mass/);
  });
});

describe('a flight', () => {
  test('drawn alone equals the same flight drawn in a sequence, in either direction', () => {
    const sequence = draw({ inputs: SOME });
    const flights: FlightInputs[] = [];
    const gusts: number[] = [];
    for (let id = 0; id < 200; id++) {
      const { inputs, noise } = sequence.draw('explore', id);
      flights.push(copy(inputs));
      gusts.push(noise.gusts.at(100, 2));
    }
    for (const id of [137, 0, 199]) {
      const alone = draw({ inputs: SOME }).draw('explore', id);
      expect(alone.inputs).toEqual(flights[id]);
      expect(alone.noise.gusts.at(100, 2)).toBe(gusts[id]);
    }
    for (const id of [150, 20, 21, 0]) expect(sequence.draw('explore', id).inputs).toEqual(flights[id]);
  });

  test('does not change for the rest when an input is added', () => {
    const more = {
      ...SOME,
      'wind.speed': varies({ family: 'weibull', shape: 2, scale: 3.5 }),
      'arms.stuck': fixed(0.5),
    };
    const before = draw({ inputs: SOME });
    const after = draw({ inputs: more });
    for (let id = 0; id < 50; id++) {
      const old = copy(before.draw('explore', id).inputs);
      const { inputs, noise } = after.draw('explore', id);
      expect({ ...inputs, wind: old.wind, arms: old.arms }).toEqual(old);
      expect(noise.gusts.at(9, 0)).toBe(before.draw('explore', id).noise.gusts.at(9, 0));
    }
  });

  test('shares an input with the same flight of another design, whatever else differs', () => {
    const other = { 'can.mass': SOME['can.mass'], 'pad.wait': varies({ family: 'uniform', from: 0, to: 60 }) };
    const designs = [draw({ inputs: SOME }), draw({ inputs: other, leftOut: ['parachute', 'video'] })];
    const [one, two] = designs.map((drawer) => [3, 4, 900].map((id) => drawer.draw('confirm', id).inputs.can.mass));
    expect(one).toEqual(two);
  });

  test('differs with the seed and with the set', () => {
    const masses = [
      draw({ inputs: SOME }).draw('explore', 3),
      draw({ inputs: SOME }).draw('confirm', 3),
      draw({ inputs: SOME }).draw('worlds', 3),
      draw({ inputs: SOME }, 'seed2').draw('explore', 3),
    ].map(({ inputs }) => inputs.can.mass);
    expect(new Set(masses).size).toBe(4);
  });

  test('has a number from 0 upwards', () => {
    const drawer = draw({});
    for (const id of [-1, 0.5, Number.NaN]) expect(() => drawer.draw('explore', id)).toThrow(/no flight/);
  });

  test('draws independent numbers for each label of an input', () => {
    const drawer = draw({ inputs: SOME });
    const n = 5000;
    const pairs = Array.from({ length: n }, (_, id) => [
      ...drawer.draw('explore', id).inputs.ejection.horizontal_speed,
    ]);
    const [east, north] = [0, 1].map((axis) => pairs.map((pair) => pair[axis]));
    expect(Math.abs(sampleCorrelation(east, north))).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(mean(east))).toBeLessThan((5 * 8) / Math.sqrt(n));
  });
});

describe('the uniform numbers', () => {
  test('are those from which the inputs were made', () => {
    const drawer = draw({ inputs: SOME });
    const ids = [0, 5, 6, 400];
    for (const set of ['explore', 'worlds'] as const) {
      const mass = drawer.uniforms('can.mass', set, ids);
      const north = drawer.uniforms('ejection.horizontal_speed[north]', set, ids);
      const attitude = drawer.uniforms('ejection.attitude[u2]', set, ids);
      const lapse = drawer.uniforms('pilot.lapse', set, ids);
      const event = drawer.uniforms('pilot.lapse#event', set, ids);
      const dead = drawer.uniforms('rotors.dead#event[rotor 3]', set, ids);
      ids.forEach((id, i) => {
        const { can, ejection, pilot, rotors } = drawer.draw(set, id).inputs;
        expect(can.mass).toBe(quantileOf(SOME['can.mass'], mass[i]));
        expect(ejection.horizontal_speed[1]).toBe(quantileOf(SOME['ejection.horizontal_speed'], north[i]));
        expect(ejection.attitude[1]).toBe(attitude[i]);
        expect(pilot.lapse).toBe(1 - event[i] < quantileOf(SOME['pilot.lapse'], lapse[i]));
        expect(rotors.dead[2]).toBe(dead[i] > 0.9);
      });
    }
  });

  test('are listed with what they stand for', () => {
    const { drawn } = draw({ inputs: SOME });
    const of = (path: string) => drawn.filter((input) => input.path === path);
    expect(of('can.mass')).toEqual([{ name: 'can.mass', path: 'can.mass', part: 'value', unmeasured: false }]);
    expect(of('pilot.reaction').map(({ name, part, unmeasured }) => [name, part, unmeasured])).toEqual([
      ['pilot.reaction.median', 'parameter', true],
      ['pilot.reaction', 'value', false],
    ]);
    expect(of('pilot.lapse').map(({ name, part, unmeasured }) => [name, part, unmeasured])).toEqual([
      ['pilot.lapse', 'value', true],
      ['pilot.lapse#event', 'event', false],
    ]);
    expect(of('wind.speed')).toEqual([]);
    expect(() => draw({}).uniforms('wind.speed', 'explore', [0])).toThrow(/No flight draws/);
  });
});

describe('an unmeasured parameter', () => {
  test('is drawn from its own stream, and the input from the distribution it gives', () => {
    const drawer = draw({ inputs: SOME });
    const ids = Array.from({ length: 50 }, (_, i) => i);
    const median = drawer.uniforms('pilot.reaction.median', 'explore', ids);
    const own = drawer.uniforms('pilot.reaction', 'explore', ids);
    for (const id of ids) {
      const drawnMedian = quantileOf(varies({ family: 'log-normal', median: 1.18, spread: 0.2 }), median[id]);
      const expected = quantileOf(varies({ family: 'log-normal', median: drawnMedian, spread: 0.44 }), own[id]);
      expect(drawer.draw('explore', id).inputs.pilot.reaction).toBeCloseTo(expected, 12);
    }
  });

  test('moves the bounds of the input it belongs to', () => {
    const mean = unmeasured({ family: 'uniform', from: 0, to: 10 });
    const value = varies({ family: 'normal', mean, sd: 1 }, [4, 6]);
    const drawer = draw({ inputs: { 'can.mass': value } });
    const ids = Array.from({ length: 200 }, (_, i) => i);
    const means = drawer.uniforms('can.mass.mean', 'explore', ids);
    const own = drawer.uniforms('can.mass', 'explore', ids);
    for (const id of ids) {
      const { mass } = drawer.draw('explore', id).inputs.can;
      expect(mass).toBe(quantileOf(varies({ family: 'normal', mean: 10 * means[id], sd: 1 }, [4, 6]), own[id]));
    }
  });

  test('may have an unmeasured parameter itself', () => {
    const spread = unmeasured({ family: 'uniform', from: 0.1, to: 0.2 });
    const median = unmeasured({ family: 'log-normal', median: 1, spread });
    const drawer = draw({ inputs: { 'pilot.reaction': varies({ family: 'log-normal', median, spread: 0.4 }) } });
    const names = drawer.drawn.map(({ name }) => name).filter((name) => name.startsWith('pilot.reaction'));
    expect(names).toEqual(['pilot.reaction.median.spread', 'pilot.reaction.median', 'pilot.reaction']);
    const [deep, middle, own] = names.map((name) => drawer.uniforms(name, 'explore', [8])[0]);
    const normal = (u: number) => quantileOf(varies({ family: 'normal', mean: 0, sd: 1 }), u);
    const expected = Math.exp((0.1 + 0.1 * deep) * normal(middle)) * Math.exp(0.4 * normal(own));
    expect(drawer.draw('explore', 8).inputs.pilot.reaction).toBeCloseTo(expected, 12);
  });
});

describe('worlds', () => {
  const flightsOf = (set: SetName) => {
    const drawer = draw({ inputs: SOME });
    return Array.from({ length: 3 * FLIGHTS_PER_WORLD }, (_, id) => copy(drawer.draw(set, id).inputs));
  };

  test('hold the unmeasured inputs for 60 flights, while the rest varies', () => {
    const flights = flightsOf('worlds');
    const distinct = (of: (inputs: FlightInputs) => number) => new Set(flights.map(of)).size;
    expect(distinct((inputs) => inputs.can.drag_factor)).toBe(3);
    expect(distinct((inputs) => inputs.can.mass)).toBe(180);
    expect(distinct((inputs) => inputs.pilot.reaction)).toBe(180);
    expect(flights[59].can.drag_factor).toBe(flights[0].can.drag_factor);
    expect(flights[60].can.drag_factor).not.toBe(flights[59].can.drag_factor);
    const { uniforms } = draw({ inputs: SOME });
    for (const name of ['pilot.reaction.median', 'pilot.lapse', 'can.drag_factor'])
      expect(
        new Set(
          uniforms(
            name,
            'worlds',
            flights.map((_, id) => id),
          ),
        ).size,
        name,
      ).toBe(3);
    for (const name of ['pilot.lapse#event', 'can.mass', 'ejection.attitude[u1]'])
      expect(
        new Set(
          uniforms(
            name,
            'worlds',
            flights.map((_, id) => id),
          ),
        ).size,
        name,
      ).toBe(180);
  });

  test('are not for plain flights, each of which draws its own unmeasured inputs', () => {
    expect(new Set(flightsOf('explore').map((inputs) => inputs.can.drag_factor)).size).toBe(180);
    expect(new Set(flightsOf('confirm').map((inputs) => inputs.can.drag_factor)).size).toBe(180);
  });

  test('give every flight its own noise', () => {
    const drawer = draw({ inputs: SOME });
    const first = drawer.draw('worlds', 0).noise.gusts.at(0, 0);
    expect(drawer.draw('worlds', 1).noise.gusts.at(0, 0)).not.toBe(first);
  });
});

describe('events', () => {
  test('happen as often as their chance says, each label by itself', () => {
    const drawer = draw({ inputs: { 'rotors.dead': fixed(0.1), 'pilot.lapse': fixed(0.03) } });
    const n = 20_000;
    let lapses = 0;
    let both = 0;
    const dead = [0, 0, 0, 0];
    for (let id = 0; id < n; id++) {
      const { rotors, pilot } = drawer.draw('explore', id).inputs;
      rotors.dead.forEach((happens, rotor) => {
        if (happens) dead[rotor]++;
      });
      if (rotors.dead[0] && rotors.dead[1]) both++;
      if (pilot.lapse) lapses++;
    }
    const limit = (p: number) => 5 * Math.sqrt((p * (1 - p)) / n);
    for (const count of dead) expect(Math.abs(count / n - 0.1)).toBeLessThan(limit(0.1));
    expect(Math.abs(both / n - 0.01)).toBeLessThan(limit(0.01));
    expect(Math.abs(lapses / n - 0.03)).toBeLessThan(limit(0.03));
  });

  test('with a chance from trials happen as often as the mean of the posterior, (k + 1/2)/(n + 1)', () => {
    const drawer = draw({ inputs: { 'pilot.lapse': unmeasured({ family: 'trials', trials: 30, failures: 3 }) } });
    const n = 20_000;
    let lapses = 0;
    for (let id = 0; id < n; id++) if (drawer.draw('explore', id).inputs.pilot.lapse) lapses++;
    const expected = 3.5 / 31;
    expect(Math.abs(lapses / n - expected)).toBeLessThan(5 * Math.sqrt((expected * (1 - expected)) / n));
  });

  test('of chance 0 never happen and of chance 1 always', () => {
    const drawer = draw({ inputs: { 'rotors.dead': fixed(1), 'arms.stuck': fixed(0) } });
    for (let id = 0; id < 500; id++) {
      const { rotors, arms } = drawer.draw('explore', id).inputs;
      expect(rotors.dead).toEqual([true, true, true, true]);
      expect(arms.stuck).toEqual([false, false, false, false]);
    }
  });
});

describe('the nominal flight', () => {
  test('has every input and luck at its median, no event, no noise and no outage', () => {
    const { inputs, noise } = nominalDraw(scenarioOf({ inputs: SOME }));
    expect(inputs.can.mass).toBeCloseTo(0.61, 12);
    expect(inputs.ejection.horizontal_speed[0]).toBeCloseTo(0, 12);
    expect(inputs.pilot.reaction).toBeCloseTo(1.18, 12);
    expect(inputs.ejection.attitude).toEqual([0.5, 0.5, 0.5]);
    expect(inputs.pilot.lapse).toBe(false);
    expect(inputs.rotors.dead).toEqual([false, false, false, false]);
    expect([noise.gusts.at(300, 2), noise.callOut.at(7, 0), noise.throttle.at(99, 0)]).toEqual([0, 0, 0]);
    expect(noise.outages.at(0, 0)).toBeGreaterThan(1e9);
  });
});
