import { describe, expect, it } from 'vitest';
import { readAxis } from '../../sim/limits/axis.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { answered, refusalOf } from '../answers.js';
import { burdock } from '../ensemble/burdock.js';

function values(text: string, count = 5, scenario: Scenario = burdock()): readonly number[] {
  const { perSi, offset, values: si } = answered(readAxis(scenario, text, count));
  return si.map((value) => Number((value * perSi + offset).toPrecision(6)));
}

function message(text: string, scenario: Scenario = burdock()): string {
  return refusalOf(readAxis(scenario, text, 5)).join();
}

describe('an input of the day, as written', () => {
  it('takes each value with its own unit, from easy to hard', () => {
    expect(values('wind.speed=18 km/h,2 m/s, 4 m/s')).toEqual([2, 4, 5]);
    expect(values('site.temperature=35 degC,20 degC')).toEqual([20, 35]);
    expect(values('arms.stuck=1 %,0.005')).toEqual([0.5, 1]);
  });

  it('has its values descending where the high end is the better one, and ascending where neither is known', () => {
    const read = readAxis(burdock(), 'battery.capacity=500 mAh,600 mAh', 5);
    expect(read).toMatchObject({ value: { ordered: true } });
    expect(values('battery.capacity=500 mAh,600 mAh')).toEqual([600, 500]);
    expect(readAxis(burdock(), 'wind.from=90 deg,0 deg', 5)).toMatchObject({ value: { ordered: false } });
    expect(values('wind.from=90 deg,0 deg')).toEqual([0, 90]);
  });

  it.each([
    ['a number without a unit', 'wind.speed=2,4 m/s', /"2", a number without a unit/],
    ['a unit of something else', 'wind.speed=2 kg', /"2 kg", a mass.*a speed/],
    ['nothing between commas', 'wind.speed=2 m/s,,4 m/s', /found nothing/],
    ['a value out of range', 'wind.speed=200 m/s', /too large/],
    ['a value twice', 'wind.speed=2 m/s,2 m/s', /twice/],
    ['more than fit a page', `wind.speed=${[1, 2, 3, 4, 5, 6, 7, 8, 9].map((one) => `${one} m/s`)}`, /at most 8/],
    ['the height itself', 'plan.throttle_up_height=100 m', /what the card tells/],
    ['a choice', 'plan.cue=timer', /is no number of this scenario/],
    ['what the scenario leaves out', 'parachute.diameter=1 m', /is no number of this scenario/],
    ['a misspelt name', 'wait', /Did you mean "pad\.wait"/],
  ])('refuses %s', (_what, text, why) => {
    expect(message(text)).toMatch(why);
  });
});

describe('the values that the program chooses', () => {
  it("take the wind from calm to the launch code's ceiling, which is the last", () => {
    expect(values('wind.speed', 6)).toEqual([0, 2, 4, 6, 8, 8.9408]);
    expect(values('wind.speed', 6, burdock('site.launch_wind_limit=10 m/s'))).toEqual([0, 2, 4, 6, 8, 10]);
  });

  it('are round and span the middle of the distribution', () => {
    // Triangular 5, 20, 60 min: 5 % at 11.4 min, 95 % at 49.5 min.
    expect(values('pad.wait')).toEqual([10, 20, 30, 40, 50]);
    // Normal 30 degC, 4 K: 5 % at 23.4, 95 % at 36.6.
    const temperatures = values('site.temperature');
    expect(temperatures[0]).toBeLessThanOrEqual(25);
    expect(temperatures.at(-1)).toBeGreaterThanOrEqual(36.6);
  });

  it('go from half to twice a fixed value, and are refused where it is nought', () => {
    expect(values('pad.wait', 5, burdock('pad.wait=20 min'))).toEqual([10, 20, 30, 40, 50]);
    expect(message('pad.wait', burdock('pad.wait=0 min'))).toMatch(/no spread; write the values: pad\.wait=1 min/);
  });

  it('stay within what is possible', () => {
    for (const value of values('arms.stuck', 8)) expect(value).toBeGreaterThanOrEqual(0);
    expect(Math.min(...values('stabiliser.starting_error', 8))).toBeGreaterThanOrEqual(-180);
  });
});
