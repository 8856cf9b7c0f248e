/** Events: each does what the document says, when it says, and shows in the trace. */
import { describe, expect, test } from 'vitest';
import type { FlightDraw, FlightNoise, NoiseSeries } from '../../sim/draws/draw.js';
import { createFlightModel } from '../../sim/flight/model.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { flyAt, named, scenarioNamed } from './bench.js';
import { QUIET, quietDraw } from './nominal-inputs.js';

const model = createFlightModel(scenarioNamed('burdock'));
const HEIGHT = 250;

function traced(draw: FlightDraw, height = HEIGHT) {
  const trace = model.trace(draw, height);
  const timeOf = (name: string) => trace.events.find((event) => event.name === name)?.time ?? Number.NaN;
  return { ...trace, flown: named(trace.record), timeOf };
}

/** One outage from `begin` to `end`, for a rate and a mean length of one. */
function withOutage(draw: FlightDraw, begin: number, end: number): FlightDraw {
  draw.inputs.link.outage_rate = 1;
  draw.inputs.link.outage_length = 1;
  const rows = [[begin, end - begin]];
  const outages: NoiseSeries = { at: (node, column) => rows[node]?.[column] ?? 1e9 };
  const noise: FlightNoise = { ...QUIET, outages };
  return { inputs: draw.inputs, noise };
}

const usual = traced(quietDraw());

describe('the nominal flight', () => {
  test('runs through all phases in order', () => {
    const names = usual.events.map((event) => event.name);
    const order = ['ejected', 'arms released', 'arms open', 'cue', 'order received', 'rotors running', 'upright'];
    expect(names).toEqual([...order, 'descent arrested', 'touchdown']);
    expect(usual.flown.outcome).toBe('soft');
  });

  test('has its arms released and open when set, and its events at the heights of the trace', () => {
    expect(usual.timeOf('arms released')).toBe(2);
    // As on the bench, but for the stream.
    expectWithin(usual.timeOf('arms open'), 2.4, 0.05);
    const order = usual.events.find((event) => event.name === 'order received');
    expectWithin(order?.height as number, usual.flown.order_height, 0.02);
  });

  test('comes down at the speed of the flare, near the wanted 1.2 m/s, level and slow over ground', () => {
    expectWithin(usual.flown.vertical_speed, 1.2, 0.3);
    expect(usual.flown.horizontal_speed).toBeLessThan(0.5);
    expect(usual.flown.tilt).toBeLessThan(0.1);
    expectRelative(usual.flown.energy, 0.5 * 0.61 * usual.flown.touchdown_speed ** 2, 1e-9);
  });
});

test('arms released by the order open first: the rotors run release delay, opening time and start time after it', () => {
  const late = quietDraw((inputs) => {
    inputs.arms.release = 'on the order';
    inputs.arms.release_delay = 0.1;
    inputs.arms.hinge_torque = 1e4; // no stream stands against it: the arms open when the bench says
  });
  const { flown, timeOf } = traced(late, 400);
  expectWithin(timeOf('arms released') - flown.order_time, 0.1, 1e-9);
  expectWithin(flown.running_time - flown.order_time, 0.1 + 0.4 + 0.25, 1e-9);
});

describe('the time to the order', () => {
  const chain = usual.flown.order_time - usual.timeOf('cue');

  test('is latency, reaction and link delay', () => {
    expectWithin(chain, 0.3 + 1.18 + 0.1, 1e-9);
  });

  test('is longer by a lapse', () => {
    const lapsed = flyAt(
      model,
      quietDraw((inputs) => {
        inputs.pilot.lapse = true;
        inputs.pilot.lapse_length = 2.5;
      }),
      HEIGHT,
    );
    expectWithin(lapsed.order_time - usual.flown.order_time, 2.5, 1e-9);
    expect(lapsed.order_height).toBeLessThan(usual.flown.order_height - 60);
  });

  test('ends with an outage that is on when the pilot orders, and has nothing to do with one before', () => {
    const said = usual.flown.order_time - 0.1;
    const held = flyAt(model, withOutage(quietDraw(), said - 0.5, said + 0.8), HEIGHT);
    expectWithin(held.order_time, said + 0.8 + 0.1, 1e-9);
    const before = flyAt(model, withOutage(quietDraw(), said - 0.9, said - 0.2), HEIGHT);
    expectWithin(before.order_time, usual.flown.order_time, 1e-9);
  });

  test('knows neither person nor radio when automatic', () => {
    const automatic = quietDraw((inputs) => {
      inputs.plan.cue = 'automatic';
      inputs.pilot.lapse = true;
    });
    const flown = traced(withOutage(automatic, 10, 500));
    expectWithin(flown.flown.order_time - flown.timeOf('cue'), 0.3, 1e-9);
  });
});

test('an unsteady hand is off the descent rate by its error over the gain: 0.3 m/s2 over 2 1/s', () => {
  const heavy: FlightNoise = { ...QUIET, throttle: { at: () => 1 } }; // always one standard deviation too much lift
  const { rows } = traced({ inputs: quietDraw().inputs, noise: heavy });
  // At 20 m both have come back over the landing point: on the way back the lean of the can is worth 0.04 m/s.
  const steady = (all: typeof rows) => all.find((row) => (row[1] as number) < 20)?.[4] as number;
  expectWithin(steady(usual.rows) - steady(rows), 0.3 / 2, 0.01);
});

describe('an outage in powered flight', () => {
  const begin = usual.flown.running_time + 1;

  test('holds the last command while it is short, and lands softly after it', () => {
    const flown = flyAt(model, withOutage(quietDraw(), begin, begin + 1.5), HEIGHT);
    expect(flown.outcome).toBe('soft');
  });

  test.each([-0.5, 0.1])(
    'begun %d s from the arrest holds the strong thrust of that moment: the can climbs until the link is back',
    (from) => {
      const start = usual.flown.arrest_time + from;
      const { rows } = traced(withOutage(quietDraw(), start, start + 1.5));
      const fallSpeed = (all: typeof rows, time: number) =>
        all.find((row) => (row[0] as number) >= time)?.[4] as number;
      expect(fallSpeed(rows, start + 1.5)).toBeLessThan(0);
      expect(fallSpeed(usual.rows, start + 1.5)).toBeGreaterThan(2);
      expectWithin(fallSpeed(rows, start + 15), 4, 0.3);
    },
  );

  test('that outlasts the fail-safe time stops the motors where the design says so', () => {
    const stopping = quietDraw((inputs) => {
      inputs.link.fail_safe = 'stop the motors';
    });
    const { flown, timeOf } = traced(withOutage(stopping, begin, begin + 100));
    expectWithin(timeOf('motors stopped'), begin + 2, 1e-9);
    expect(flown.outcome).toBe('crash');
  });

  test('that outlasts it brings the can down level at the approach speed, without a flare, where the design says that', () => {
    const { flown } = traced(withOutage(quietDraw(), begin, begin + 1000));
    expect(flown.outcome).toBe('soft');
    expectWithin(flown.vertical_speed, 4, 0.3);
    expect(flown.tilt).toBeLessThan(0.05);
  });

  test('just shorter than the fail-safe time stops nothing', () => {
    const stopping = quietDraw((inputs) => {
      inputs.link.fail_safe = 'stop the motors';
    });
    const { flown, timeOf } = traced(withOutage(stopping, begin, begin + 1.99));
    expect(timeOf('motors stopped')).toBeNaN();
    expect(flown.outcome).toBe('soft');
  });
});

describe('the arming guard', () => {
  const guarded = (rate: number, hold: number) =>
    quietDraw((inputs) => {
      inputs.stabiliser.arming_guard = { rate, tilt: Math.PI / 4, hold };
    });

  test('starts the motors of a calm can once the hold time is over: they run a start time later', () => {
    const flown = flyAt(model, guarded(1, 0.4), HEIGHT);
    expectWithin(flown.running_time - flown.order_time, 0.4 + 0.25, 1e-9);
  });

  test('waits for a tumbling can to calm down', () => {
    const late = (inputs: FlightInputs) => {
      inputs.arms.release = 'on the order';
      inputs.arms.release_delay = 0.1;
    };
    const { inputs, noise } = guarded(1, 0.2);
    late(inputs);
    const flown = flyAt(model, { inputs, noise }, 400);
    expect(flown.running_time).toBeGreaterThan(flown.order_time + 0.5 + 0.2 + 0.25 + 0.1);
    expect(flyAt(model, quietDraw(late), 400).running_time).toBeLessThan(flown.running_time);
  });

  test('goes by the gyro: a calm can whose gyro is off does not arm', () => {
    const { inputs, noise } = guarded(1, 0.2);
    inputs.stabiliser.gyro_bias = [0, 0, 1.2];
    expect(flyAt(model, { inputs, noise }, HEIGHT).cause).toBe('not armed');
  });

  test('that is never met lets the can fall: not armed', () => {
    const flown = flyAt(model, guarded(1e-9, 0.2), HEIGHT);
    expect([flown.outcome, flown.cause]).toEqual(['crash', 'not armed']);
    expect(flown.running_time).toBeNaN();
  });
});

describe('what is broken before', () => {
  test.each<[string, (inputs: FlightInputs) => void]>([
    [
      'ejection damage',
      (inputs) => {
        inputs.ejection.load = 1.01 * inputs.ejection.strength;
      },
    ],
    [
      'arm release',
      (inputs) => {
        inputs.arms.release_failure = true;
      },
    ],
  ])('%s: the motors never run', (cause, change) => {
    const flown = flyAt(model, quietDraw(change), HEIGHT);
    expect([flown.outcome, flown.cause]).toEqual(['crash', cause]);
    expect(flown.running_time).toBeNaN();
  });

  test('the chain counts in its order: ejection damage before an arm before a rotor', () => {
    const broken = quietDraw((inputs) => {
      inputs.ejection.load = 1.01 * inputs.ejection.strength;
      inputs.arms.stuck = [true, false, false, false];
      inputs.rotors.dead = [false, true, false, false];
    });
    expect(flyAt(model, broken, HEIGHT).cause).toBe('ejection damage');
    broken.inputs.ejection.load = 0;
    expect(flyAt(model, broken, HEIGHT).cause).toBe('arm shut');
  });
});

test('the pack under its cut-off voltage for the cut-off delay stops the motors for good', () => {
  const drained = quietDraw((inputs) => {
    inputs.battery.cut_off_voltage = 14.9;
    inputs.battery.cut_off_delay = 0.3;
  });
  const { flown, timeOf, rows } = traced(drained);
  expect([flown.outcome, flown.cause]).toEqual(['crash', 'battery empty']);
  // The delay counts from when the voltage came under it for the last time. A row has the voltage found in its step: by the
  // midpoint rule that of half a step before.
  const before = (k: number) => 0.5 * ((running[k]?.[0] as number) + (running[k - 1]?.[0] as number));
  const running = rows.filter((row) => (row[13] as number) > 0);
  const last = running.findLastIndex((row) => (row[13] as number) >= 14.9);
  const since = timeOf('motors stopped') - 0.3;
  expect(since).toBeGreaterThanOrEqual(before(last));
  expect(since).toBeLessThanOrEqual(running[last + 1]?.[0] as number);
});
