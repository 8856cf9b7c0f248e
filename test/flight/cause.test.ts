/** The cause of a flight that is not soft: the suspect whose cure, on the same draws, leaves most margin. */
import { describe, expect, test } from 'vitest';
import type { Change, FlightDraw } from '../../sim/draws/draw.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { SUSPECTS, seekCause } from '../../sim/flight/cause.js';
import { causeIndex } from '../../sim/flight/ending.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { CAUSES } from '../../sim/flight/record.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { scenarioNamed } from './bench.js';
import { nominalInputs, QUIET } from './nominal-inputs.js';

const scenario = scenarioNamed('burdock');
const model = createFlightModel(scenario);
const HEIGHT = 250;

/** Faults by the path that cures each. */
type Faults = Readonly<Record<string, (inputs: FlightInputs) => void>>;

function causeOf(faults: Faults): string {
  const redraw = (changes: readonly Change[]): FlightDraw => {
    const inputs = nominalInputs();
    for (const [path, spoil] of Object.entries(faults))
      if (!changes.some((change) => change.path === path)) spoil(inputs);
    return { inputs, noise: QUIET };
  };
  let cause = -1;
  model.fly(redraw([]), [HEIGHT], (_, record) => {
    const first = { ...record, values: record.values.slice() };
    cause = seekCause(model, redraw, HEIGHT, first);
  });
  return CAUSES[cause] as string;
}

const lapse = (seconds: number) => (inputs: FlightInputs) => {
  inputs.pilot.lapse = true;
  inputs.pilot.lapse_length = seconds;
};
const reaction = (seconds: number) => (inputs: FlightInputs) => {
  inputs.pilot.reaction = seconds;
};
const ringDepth = (depth: number) => (inputs: FlightInputs) => {
  inputs.rotors.vortex_ring_depth = depth;
};

describe('the cause', () => {
  test('is the one thing that went wrong', () => {
    expect(causeOf({ 'pilot.lapse': lapse(6) })).toBe('lapse');
    expect(causeOf({ 'pilot.reaction': reaction(7) })).toBe('reaction');
    expect(causeOf({ 'rotors.vortex_ring_depth': ringDepth(0.8) })).toBe('thrust loss');
    const bias = (inputs: FlightInputs) => {
      inputs.pilot.call_out.bias = 200;
    };
    expect(causeOf({ 'pilot.call_out.bias': bias })).toBe('height judged');
  });

  test('is several together where curing any one of them is not enough', () => {
    expect(causeOf({ 'pilot.lapse': lapse(6), 'pilot.reaction': reaction(7) })).toBe('several together');
  });

  test('is none for a soft landing, and what is broken where something is', () => {
    expect(causeOf({})).toBe('none');
    const dead = (inputs: FlightInputs) => {
      inputs.rotors.dead = [true, false, false, false];
    };
    expect(causeOf({ 'rotors.dead': dead, 'pilot.lapse': lapse(6) })).toBe('rotor dead');
  });

  test('can be sought for every suspect of a real scenario: each change names something drawn', () => {
    const drawer = createDrawer(scenario, 'causes');
    for (const [suspect, changes] of SUSPECTS) {
      expect(causeIndex(suspect)).toBeGreaterThan(causeIndex('battery empty'));
      expect(() => drawer.draw('explore', 0, changes)).not.toThrow();
    }
  });
});
