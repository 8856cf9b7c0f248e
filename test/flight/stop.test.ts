/** What lengthens the stop or raises the risk: none of it is ruled anywhere. */
import { describe, expect, test } from 'vitest';
import { createDrawer } from '../../sim/draws/drawer.js';
import { createFlightModel } from '../../sim/flight/model.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { type Flown, flyAt, scenarioNamed } from './bench.js';
import { quietDraw, withoutBrakingEffects } from './nominal-inputs.js';

const model = createFlightModel(scenarioNamed('burdock'));
/** Braked by plain thrust: what lengthens the braking besides has tests of its own (braking.test.ts). */
const nominal = (change: (inputs: FlightInputs) => void = () => {}): Flown => {
  const draw = quietDraw((inputs) => {
    withoutBrakingEffects(inputs);
    change(inputs);
  });
  return flyAt(model, draw, 250);
};
const stopOf = (flown: Flown) => flown.order_height - flown.arrest_height;

function riskOf(name: string, height: number, flights: number, ...overrides: readonly string[]): number {
  const scenario = scenarioNamed(name, ...overrides);
  const flier = createFlightModel(scenario);
  const drawer = createDrawer(scenario, 'risk');
  let failed = 0;
  for (let id = 0; id < flights; id += 1) {
    if (flyAt(flier, drawer.draw('explore', id), height).outcome !== 'soft') failed += 1;
  }
  return failed / flights;
}

describe('the stop', () => {
  const usual = nominal();

  test('takes longer with a cold pack, in air of the same density', () => {
    const [warm, cold] = [303.15, 273.15].map((temperature) =>
      nominal((inputs) => {
        inputs.site.temperature = temperature;
        inputs.site.pressure = (87_000 * temperature) / 303.15;
      }),
    ) as [Flown, Flown];
    expect(stopOf(cold)).toBeGreaterThan(stopOf(warm) + 20);
    expect(cold.lowest_voltage).toBeLessThan(warm.lowest_voltage - 1);
  });

  test('takes longer the longer the pack was drained on the pad, until it is too empty to land', () => {
    const waits = [5, 27, 45, 60].map((minutes) =>
      nominal((inputs) => {
        inputs.pad.wait = minutes * 60;
      }),
    );
    for (let k = 1; k < waits.length; k += 1)
      expect(stopOf(waits[k] as Flown)).toBeGreaterThan(stopOf(waits[k - 1] as Flown) + 4);
    const tooLong = nominal((inputs) => {
      inputs.pad.wait = 90 * 60;
    });
    expect([tooLong.outcome, tooLong.cause]).toEqual(['crash', 'battery empty']);
    expect(tooLong.lowest_voltage).toBeLessThan(12.4);
  });

  test('loses height to the vortex ring: 50 m without it, about 70 at a depth of 0.25, over 80 at 0.4', () => {
    const [none, middle, deep] = [0, 0.25, 0.4].map((depth) =>
      stopOf(
        nominal((inputs) => {
          inputs.rotors.vortex_ring_depth = depth;
        }),
      ),
    ) as [number, number, number];
    expect(none).toBeGreaterThan(40);
    expect(none).toBeLessThan(60);
    expect(middle).toBeGreaterThan(none + 10);
    expect(deep).toBeGreaterThan(middle + 10);
  });

  test('takes longer with a slower motor, a heavier can, less thrust and a hotter day', () => {
    const longer: readonly ((inputs: FlightInputs) => void)[] = [
      (inputs) => {
        inputs.rotors.motor_lag *= 2;
      },
      (inputs) => {
        inputs.can.mass *= 1.05;
      },
      (inputs) => {
        inputs.rotors.thrust_factor = 0.95;
      },
      (inputs) => {
        inputs.site.temperature += 10;
      },
    ];
    for (const change of longer) expect(stopOf(nominal(change))).toBeGreaterThan(stopOf(usual) + 0.5);
  });
});

describe('over many flights', () => {
  test('a longer wait on the pad raises the risk', () => {
    const short = riskOf('burdock', 130, 60, 'pad.wait=5 min');
    const long = riskOf('burdock', 130, 60, 'pad.wait=60 min');
    expect(long).toBeGreaterThan(short + 0.08);
  });

  test('throttling up by itself beats a pilot who reacts', () => {
    expect(riskOf('burdock', 130, 60)).toBeGreaterThan(riskOf('burdock-automatic', 130, 60) + 0.1);
  });
});
