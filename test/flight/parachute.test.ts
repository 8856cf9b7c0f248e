/** The parachute of a flight: when the barometer fires it, what it does until it is full, and how the can comes down under it. */
import { describe, expect, test } from 'vitest';
import type { FlightDraw, FlightNoise } from '../../sim/draws/draw.js';
import { flyOn } from '../../sim/flight/course.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { GRAVITY, siteDensity } from '../../sim/model/atmosphere.js';
import { canopyDragArea } from '../../sim/model/parachute.js';
import { State } from '../../sim/model/state.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { expectRelative, expectWithin } from '../model/near.js';
import { courseFrom, flyAt, named, scenarioNamed } from './bench.js';
import { QUIET, quietDraw } from './nominal-inputs.js';

const model = createFlightModel(scenarioNamed('burdock'));
/** A planned height that is passed only after the parachute has fired. */
const NEVER = 20;
const LATENCY = 0.3;
const DEPLOYMENT = 0.4;

type Parachute = NonNullable<FlightInputs['parachute']>;

function canopy(
  change: Partial<Parachute> = {},
  other: (inputs: FlightInputs) => void = () => {},
  noise: FlightNoise = QUIET,
): FlightDraw {
  const { inputs } = quietDraw((own) => {
    own.parachute = {
      diameter: 0.9,
      drag_coefficient: 0.75,
      deployment_time: DEPLOYMENT,
      fill_constant: 8,
      added_mass: 0.5,
      fire_below: 120,
      fire_faster_than: 12,
      failure: false,
      ...change,
    };
    other(own);
  });
  return { inputs, noise };
}

function traced(draw: FlightDraw, height = NEVER) {
  const trace = model.trace(draw, height);
  const timeOf = (name: string) => trace.events.find((event) => event.name === name)?.time ?? Number.NaN;
  const heightAt = (time: number) => {
    const k = trace.rows.findIndex((row) => (row[0] as number) >= time);
    const [[t0, z0], [t1, z1]] = [trace.rows[k - 1], trace.rows[k]] as [[number, number], [number, number]];
    return z0 + ((z1 - z0) * (time - t0)) / (t1 - t0);
  };
  return { ...trace, flown: named(trace.record), timeOf, heightAt };
}

/** Metres shown for each metre on this day: 288.15 - 0.0065 x 1179.78 K over 303.15 K, and (r0/(r0 + z))^2. */
const SHOWN = ((288.15 - 0.0065 * 1179.781) / 303.15) * (6_356_766 / (6_356_766 + 1250)) ** 2;

describe('fires', () => {
  test.each([
    [0, 0, 'standard atmosphere', SHOWN],
    [-9, 0, 'standard atmosphere', SHOWN],
    [0, 0.2, 'standard atmosphere', SHOWN],
    [0, 0, 'temperature corrected', 0.99961],
  ] as const)(
    'the latency after a node of .2 s at which the reading is under 120 m: bias %d m, flow error %d, formula %s',
    (bias, flow, formula, shown) => {
      const draw = canopy({}, ({ pilot }) => Object.assign(pilot.call_out, { bias, flow_error: flow, formula }));
      const { timeOf, heightAt, rows } = traced(draw);
      const seen = timeOf('parachute fired') - LATENCY;
      expectWithin(seen / 0.2, Math.round(seen / 0.2), 1e-9);
      const reading = (time: number) => {
        const speed = rows.find((row) => (row[0] as number) >= time)?.[4] as number;
        return shown * heightAt(time) + bias + (flow * speed ** 2) / (2 * GRAVITY);
      };
      expect(reading(seen)).toBeLessThan(120.05);
      expect(reading(seen - 0.2)).toBeGreaterThan(119.95);
    },
  );

  test('later where it is read later, and by the noise of the reading', () => {
    const usual = traced(canopy()).timeOf('parachute fired');
    const late = traced(canopy({}, ({ pilot }) => Object.assign(pilot.call_out, { latency: 0.8 })));
    expectWithin(late.timeOf('parachute fired'), usual + 0.5, 1e-9);
    const noise: FlightNoise = { ...QUIET, callOut: { at: () => 30 } };
    // 30 m too high at 1 m for each standard deviation: some 30 m lower at some 29 m/s.
    expectWithin(traced(canopy({}, undefined, noise)).timeOf('parachute fired'), usual + 30 / SHOWN / 29, 0.2);
  });

  test.each([
    [24, true],
    [28, false],
  ])('at a reading that falls faster than %d m/s: %s, at a true 29 m/s, of which it shows .925', (limit, fires) => {
    const flown = traced(canopy({ fire_faster_than: limit }));
    expect(flown.rows.find((row) => (row[1] as number) < 125)?.[4]).toBeGreaterThan(28.5);
    expect(flown.timeOf('parachute fired') > 0).toBe(fires);
  });

  test('not before it has read for .6 s, and not again: one that reads too high in the end stays fired', () => {
    const course = courseFrom(canopy({ fire_below: 1000 }), { height: 300, velocity: [0, 0, -25] });
    flyOn(course, 2);
    expectWithin(course.journal.firedTime, 0.6 + LATENCY, 1e-9);
  });

  test('not at a can that is braked, nor when it fails', () => {
    expect(traced(canopy({ fire_below: 20 }), 250).timeOf('parachute fired')).toBeNaN();
    expect(traced(canopy({ failure: true })).flown.canopy).toBe(0);
  });

  test('alike whether the flight branches from its fall before or after: an order much too late changes nothing', () => {
    const alone = traced(canopy());
    for (const height of [121, 125, 130]) {
      const flown = traced(canopy(), height);
      expect(flown.timeOf('parachute fired')).toBe(alone.timeOf('parachute fired'));
      expect(flown.flown.touchdown_speed).toBe(alone.flown.touchdown_speed);
    }
  });

  test('alike where the order comes between what it read and its firing', () => {
    const automatic = (latency: number) =>
      canopy({ fire_below: 150 }, (inputs) => {
        inputs.plan.cue = 'automatic';
        inputs.pilot.call_out.latency = latency;
      });
    const { flown, timeOf } = traced(automatic(0.9), 158);
    expect(flown.order_time).toBeLessThan(timeOf('parachute fired'));
    expect(flown.order_time).toBeGreaterThan(timeOf('parachute fired') - 0.9);
    expectWithin(timeOf('parachute fired'), traced(automatic(0.9)).timeOf('parachute fired'), 1e-9);
    expect(timeOf('motors stopped')).toBe(timeOf('parachute fired'));
  });
});

describe('once fired', () => {
  test('does nothing for the deployment time: a can without drag falls on, v0 + g t', () => {
    const draw = canopy({ fire_below: 1000 }, (inputs) => {
      inputs.can.drag_factor = 1e-9;
      inputs.can.slender_body_factor = 0;
      inputs.wind.speed = 0;
    });
    const course = courseFrom(draw, { height: 900, velocity: [0, 0, -25] });
    flyOn(course, 0.6 + LATENCY + DEPLOYMENT + 1e-9);
    expect(course.s.phase).toBe('filling');
    expectWithin(course.s.y[State.UpSpeed] as number, -25 - GRAVITY * (0.6 + LATENCY + DEPLOYMENT), 1e-5);
    expectWithin(course.s.fillTime, (8 * 0.9) / (25 + GRAVITY * (0.6 + LATENCY + DEPLOYMENT)), 1e-6);
  });

  test.each([0, 0.5])(
    'slows a can without drag as the closed form, carrying %d balls of air, but for its weight',
    (share) => {
      const draw = canopy({ fire_below: 3000, added_mass: share, deployment_time: 0, fill_constant: 4 }, (inputs) => {
        inputs.can.drag_factor = 1e-9;
        inputs.can.slender_body_factor = 0;
        inputs.can.mass = 0.665;
        inputs.ejection.strength = 1e9;
        inputs.wind.speed = 0;
      });
      const course = courseFrom(draw, { height: 1500, velocity: [0, 0, -400], density: 1.05, stepScale: 0.05 });
      flyOn(course, 0.6 + LATENCY + 1e-9);
      const v0 = -(course.s.y[State.UpSpeed] as number);
      const fill = course.s.fillTime;
      expectRelative(fill, 3.6 / v0, 1e-6);
      flyOn(course, 0.6 + LATENCY + 1e-9 + fill);
      const carried = share * 1.05 * (4 / 3) * Math.PI * 0.315 ** 3;
      const p = 1 / (1 / (0.665 * v0) + (1.05 * canopyDragArea(0.75, 0.9) * fill) / 6 / (0.665 * (0.665 + carried)));
      // The weight adds at most g t_f = .09 m/s to some 300.
      const end = p / (0.665 + carried);
      expect(end).toBeLessThan(0.9 * v0);
      expectWithin(-(course.s.y[State.UpSpeed] as number), end, GRAVITY * fill);
    },
  );

  test('brings the can down at the speed of canopy and can', () => {
    const { flown } = traced(canopy());
    expect(flown.canopy).toBe(1);
    expect(flown.outcome).toBe('soft');
    // Hanging under it, the open can adds its end-on area and that of arms and stopped blades.
    const area = canopyDragArea(0.75, 0.9) + 0.85 * Math.PI * 0.04 ** 2 + 4 * 23e-4;
    const density = siteDensity({ elevation: 1180, temperature: 303.15, pressure: null }, 0);
    expectRelative(flown.vertical_speed, Math.sqrt((2 * 0.61 * GRAVITY) / (density * area)), 0.01);
  });

  test('costs the height of its latency and deployment: fired too low it lands fast', () => {
    const { flown, timeOf, heightAt } = traced(canopy({ fire_below: 45 }));
    const fallen = heightAt(timeOf('parachute fired') - LATENCY) - heightAt(timeOf('parachute begins to fill'));
    expectWithin(fallen, 29.5 * (LATENCY + DEPLOYMENT), 1);
    expect(flown.outcome).toBe('soft');
    expect(traced(canopy({ fire_below: 30 })).flown.vertical_speed).toBeGreaterThan(20);
  });

  test('stops the motors at once under power, and cuts off an arrest when set too high', () => {
    const { flown, timeOf } = traced(canopy({ fire_below: 180 }), 250);
    expect(timeOf('parachute fired')).toBeGreaterThan(flown.running_time);
    expect(timeOf('motors stopped')).toBe(timeOf('parachute fired'));
    expectWithin(timeOf('parachute begins to fill'), timeOf('parachute fired') + DEPLOYMENT, 1e-9);
    expect(flown.arrest_time).toBeNaN();
  });

  test('is torn off by a pull over the strength, which counts the air that it carries', () => {
    // The largest pull: with the air carried above the one without.
    const torn = (strength: number, share: number) =>
      flyAt(
        model,
        canopy({ added_mass: share }, (inputs) => {
          inputs.ejection.load = 0;
          inputs.ejection.strength = strength * GRAVITY;
        }),
        NEVER,
      ).outcome === 'crash';
    expect(torn(3, 0.5)).toBe(true);
    expect(torn(25, 0.5)).toBe(false);
    const limit = (share: number) => {
      let [tears, holds] = [3, 25];
      while (holds - tears > 0.05) {
        const middle = (tears + holds) / 2;
        if (torn(middle, share)) tears = middle;
        else holds = middle;
      }
      return holds;
    };
    const [bare, loaded] = [limit(0), limit(1)];
    expect(loaded).toBeGreaterThan(bare + 0.3);
  });
});
