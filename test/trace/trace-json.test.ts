import { describe, expect, it } from 'vitest';
import { tracePage } from '../../report/trace/trace.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { NOISE_NAMES } from '../../sim/draws/noise.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { leafPaths } from '../../sim/scenario/definition/leaves.js';
import { parseTrace } from '../../sim/trace/json.js';
import { traceResult } from '../../sim/trace/put-together.js';
import type { TraceResult } from '../../sim/trace/result.js';
import { traceFlight } from '../../sim/trace/trace-flight.js';
import { answered } from '../answers.js';
import { flyAt, scenarioNamed } from '../flight/bench.js';
import { collector } from '../report/checks.js';
import { drawOf, inputsOf, written } from './from-json.js';

const SEED = 'trace';

function traced(scenarioName: string, id: string, ...overrides: readonly string[]): TraceResult {
  const scenario = scenarioNamed(scenarioName, ...overrides);
  const flight = answered(traceFlight(scenario, SEED, id));
  return traceResult({ scenario, overrides, seed: SEED }, flight);
}

const textOf = (result: TraceResult) => [...resultJson(result)].join('');

/** Every kind of input and end: outages, broken hardware, other cues, a canopy, worlds, the nominal flight. */
const FLIGHTS: readonly (readonly [scenario: string, id: string, ...overrides: readonly string[]])[] = [
  ['burdock', 'explore:3@200'],
  ['burdock', 'worlds:130@250', 'link.outage_rate=0.5/s'],
  ['burdock', 'confirm:1@150', 'rotors.dead=90 %'],
  ['burdock', 'nominal@250'],
  ['burdock-late-arms', '5@200'],
  ['burdock-parachute', '5@40'],
  ['burdock-picture', '2'],
  ['burdock', '8', 'plan.cue=timer', 'plan.timer_start=a person'],
  ['teasel', '4@50'],
];

describe.each(FLIGHTS)('%s, flight %s as JSON', (name, id, ...overrides) => {
  const result = traced(name, id, ...overrides);
  const text = textOf(result);

  it('is read back the same, and makes the same page', async () => {
    const read = parseTrace(text);
    expect(read).toEqual({ status: 'ok', value: result });
    if (read.status !== 'ok') return;
    const [first, again] = [collector(), collector()];
    expect(await tracePage(read.value, again.collect)).toEqual(await tracePage(result, first.collect));
    expect(again.drawn).toEqual(first.drawn);
  });

  it('alone determines the flight: flown again from it, it ends in the same numbers', () => {
    const flight = written(text);
    const model = createFlightModel(scenarioNamed(name, ...overrides));
    const again = flyAt(model, drawOf(flight), flight.height);
    const numbers = Object.keys(flight.record).map((column) => [column, again[column as keyof typeof again]]);
    const known = Object.entries(flight.record).map(([column, value]) => [column, value ?? Number.NaN]);
    expect(numbers).toEqual(known);
    expect(again.outcome).toBe(flight.outcome);
  });

  it('has every input of the definition but those of sections left out, and every series of noise', () => {
    const outside = (path: string) => result.scenario.leftOut.some((section) => path.startsWith(`${section}.`));
    const paths = leafPaths().flatMap(({ path }) => (outside(path) ? [] : [path]));
    expect(result.inputs.map(({ path }) => path)).toEqual(paths);
    expect(result.noise.map((series) => series.name)).toEqual(NOISE_NAMES);
  });

  it('gives each number drawn the value that the flight was flown with', () => {
    const inputs = inputsOf(written(text));
    for (const { name: drawn, path, part, value } of result.drawn) {
      const label = /\[(.*)\]$/.exec(drawn)?.[1];
      const input = result.inputs.find((one) => one.path === path);
      if (part === 'parameter' || (part === 'value' && input?.shape === 'event')) continue;
      const flown = path.split('.').reduce<unknown>((whole, key) => (whole as never)[key], inputs);
      const place = input !== undefined && 'each' in input ? (input.each?.indexOf(label ?? '') ?? -1) : -1;
      expect([drawn, place < 0 ? flown : (flown as readonly unknown[])[place]]).toEqual([drawn, value]);
    }
  });
});

describe('The history of a flight', () => {
  const result = traced('burdock', 'explore:3@300');
  const { history, events, phases, record, outcome } = result;
  const column = (name: string) => (history[name] ?? []).map(Number);

  it('turns by its own turning rate: the quaternion of each step follows from the one before', () => {
    const [time, ...states] = ['time_s', 'attitude_w', 'attitude_x', 'attitude_y', 'attitude_z'].map(column);
    const turning = ['x', 'y', 'z'].map((axis) => column(`turning_rate_${axis}_rad_per_s`));
    const calm = time.findIndex((one) => one > 10);
    for (let k = calm; k < calm + 50; k++) {
      const [w, x, y, z] = states.map((state) => state[k]);
      expect(w * w + x * x + y * y + z * z).toBeCloseTo(1, 7);
      const [p, q, r] = turning.map((one) => (one[k] + one[k + 1]) / 2);
      const half = (time[k + 1] - time[k]) / 2;
      const next = [
        w - half * (x * p + y * q + z * r),
        x + half * (w * p + y * r - z * q),
        y + half * (w * q - x * r + z * p),
        z + half * (w * r + x * q - y * p),
      ];
      next.forEach((one, i) => {
        expect(Math.abs(states[i][k + 1] - one)).toBeLessThan(0.02);
      });
    }
  });

  it('holds each state under its own name: speeds, estimate and charge agree with what is derived from them', () => {
    const last = column('time_s').length - 1;
    const [east, north, up, fall, ground] = [
      'east_speed_m_per_s',
      'north_speed_m_per_s',
      'up_speed_m_per_s',
      'fall_speed_m_per_s',
      'ground_speed_m_per_s',
    ].map(column);
    for (let k = 0; k <= last; k += 40) {
      expect(up[k]).toBe(-fall[k]);
      expect(Math.hypot(east[k], north[k])).toBeCloseTo(ground[k], 6);
    }
    expect(fall[last]).toBeCloseTo(Number(record.vertical_speed), 7);
    const charge = column('charge_drawn_C');
    expect(charge.every((one, k) => k === 0 || one >= charge[k - 1])).toBe(true);
    expect(outcome).toBe('soft');
  });

  it('has its phases at the times of its events', () => {
    const at = (name: string) => events.find((event) => event.name === name)?.time;
    expect(phases.map(({ name }) => name)).toEqual(['falling', 'starting', 'braking', 'approach']);
    // The arms are open, so the motors are told to start at once; the first rotor begins the braking, the last one runs.
    const { start_time, own_start_factor } = inputsOf(written(textOf(result))).rotors;
    const order = Number(at('order received'));
    const starts = own_start_factor.map((factor) => order + start_time * factor);
    expect(phases.map(({ began }) => began)).toEqual([0, order, Math.min(...starts), at('descent arrested')]);
    expect(at('rotors running')).toBe(Math.max(...starts));
  });
});

describe('A traced flight read back', () => {
  const whole = traced('burdock', 'nominal');

  it.each([
    [
      'a column of another length',
      { history: { ...whole.history, thrust_1: [0] } },
      '"history.thrust_1" does not hold',
    ],
    ['a column that is gone', { history: { time_s: [0] } }, '"history.height_m" is missing'],
    [
      'noise with a number too few',
      { noise: whole.noise.map((one) => ({ ...one, values: [[]] })) },
      '"noise.gusts" has not a number for each of its columns',
    ],
    [
      'an input with a value too few',
      { inputs: whole.inputs.map((one) => (one.path === 'rotors.dead' ? { ...one, value: [true] } : one)) },
      '"rotors.dead" has not a value for each of its labels',
    ],
  ])('is refused with %s', (_, change, says) => {
    const read = parseTrace(JSON.stringify({ ...whole, ...change }));
    expect(read).toMatchObject({ status: 'refused', messages: [expect.stringContaining(says)] });
  });
});
