/**
 * The hand calculation stands beside what the simulation gives for the same nominal flight, with the reason where
 * they differ.
 */

import type { FlightDraw } from '../draws/draw.js';
import type { FlightModel, FlightTrace } from '../flight/flight.js';
import { COLUMN_NAMES, type ColumnName } from '../flight/record.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import type { Scenario } from '../scenario/scenario.js';
import { guessesWithoutSpread, rankGuesses } from './hand-guesses.js';
import { handNumbers, plannedFor } from './hand-numbers.js';
import { nominalPower } from './nominal-power.js';
import type { HandCalculation, HandRow } from './result.js';

/** What the two rows say that need a planned height, where there is none yet. */
const NO_HEIGHT = 'No height is planned yet.';

/**
 * @param nominal every input at its median, no event, no gusts
 * @param planned false where its throttle-up height only stands in for a decision that is still to be made
 */
export function handCalculation(
  scenario: Scenario,
  nominal: FlightDraw,
  model: FlightModel,
  planned = true,
): HandCalculation {
  const inputs = nominal.inputs;
  const height = inputs.plan.throttle_up_height;
  const trace = model.trace(nominal, height);
  return {
    rows: handRows(handNumbers(inputs), trace, inputs, planned),
    guesses: rankGuesses(scenario, inputs),
    withoutSpread: guessesWithoutSpread(scenario),
  };
}

const BAROMETER = '(planned - bias - k v^2 / 2g) / a, a: what its formula shows for a metre; under 1 in warm air';

const CUE_FORMULAS: Readonly<Record<FlightInputs['plan']['cue'], string>> = {
  'call-out': BAROMETER,
  automatic: BAROMETER,
  picture: 'planned height x judgement',
  timer: 'planned height, if the fall goes as reckoned',
};

const DELAY_FORMULAS: Readonly<Record<FlightInputs['plan']['cue'], string>> = {
  'call-out': 'fall speed x (latency + reaction + link delay)',
  automatic: 'fall speed x latency',
  picture: 'fall speed x (reaction + link delay)',
  timer: 'fall speed x (reaction + link delay), or none without a person',
};

function handRows(
  hand: ReturnType<typeof handNumbers>,
  trace: FlightTrace,
  inputs: FlightInputs,
  planned: boolean,
): readonly HandRow[] {
  const flown = (name: ColumnName) => trace.record.values[COLUMN_NAMES.indexOf(name)];
  const power = nominalPower(trace, inputs.battery.capacity);
  const row = (
    name: string,
    unit: string,
    byHand: number | null,
    simulated: number | null,
    formula: string,
    why: string,
  ) => ({
    name,
    unit,
    byHand: orNull(byHand),
    simulated: orNull(simulated),
    formula,
    why,
  });
  const cannot = hand.stoppingHeight === null;
  return [
    row('air density', 'kg/m3', hand.density, null, 'p / (287.05 T) at the ground of the site', ''),
    row(
      'charge after the wait',
      '%',
      100 * hand.charge,
      null,
      'charge at arming - standby power x wait / pack energy',
      '',
    ),
    row(
      'voltage at full throttle',
      'V',
      hand.voltage,
      power.lowestVoltage,
      'V = E - I R with I = P / V, P as V cubed',
      'The hand figure is static; a fall unloads or loads the rotors, and charge goes on falling.',
    ),
    row(
      'thrust to weight',
      '',
      hand.thrustToWeight,
      null,
      '4 T (density ratio) (voltage ratio)^k / (m g)',
      cannot ? 'At or under 1: this craft cannot hover, let alone stop.' : '',
    ),
    row(
      'fall speed',
      'm/s',
      hand.terminalSpeed,
      flown('speed_at_order'),
      'sqrt(2 m g / (density x drag area))',
      'The simulated can may still be speeding up, tilted or coning, and the air thins with height.',
    ),
    row(
      'true height at the cue',
      'm',
      planned ? hand.cueHeight : null,
      planned ? flown('cue_height') : null,
      CUE_FORMULAS[inputs.plan.cue],
      planned ? 'The nominal flight reads without noise; small differences come from the fall speed.' : NO_HEIGHT,
    ),
    row(
      'height lost before the order',
      'm',
      hand.delayHeight,
      flown('cue_height') - flown('order_height'),
      DELAY_FORMULAS[inputs.plan.cue],
      '',
    ),
    row(
      'stopping height',
      'm',
      hand.stoppingHeight,
      flown('order_height') - flown('arrest_height'),
      '(w^2 / 2g) ln(1 + v^2 / ((n - 1) w^2))',
      cannot
        ? 'No stop: the thrust does not exceed the weight.'
        : 'The formula knows no motor lag, no thrust lost to the vortex ring and no time to come upright: the simulation needs more.',
    ),
    row(
      'stopping time',
      's',
      hand.stoppingTime,
      flown('arrest_time') - flown('order_time'),
      'w / (g sqrt(n - 1)) atan(v / (w sqrt(n - 1)))',
      cannot ? 'No stop: the thrust does not exceed the weight.' : 'As for the stopping height.',
    ),
    row(
      'bare minimum of one ordinary flight, not a plan',
      'm',
      hand.lowestHeight,
      plannedFor(inputs, flown('speed_at_order'), flown('cue_height') - flown('arrest_height')),
      'the plan whose cue comes at height lost before the order + stopping height',
      'Nothing is to spare in it: the height to plan is greater, and `assess` finds it.',
    ),
    row('ideal hover power', 'W', hand.idealHoverPower, null, '4 (m g / 4)^1.5 / sqrt(2 density x disc area)', ''),
    row(
      'hover power',
      'W',
      hand.hoverPower,
      power.approach,
      'bench power x (weight / full thrust)^1.5',
      'The simulated craft is not hovering but sinking at the approach speed into its own wake.',
    ),
    row(
      'endurance',
      'min',
      hand.endurance / 60,
      power.endurance === null ? null : power.endurance / 60,
      'pack energy left / hover power',
      'The simulated figure is the charge at the order over the rate at which the approach uses it.',
    ),
    row(
      'longest wait on the pad',
      'min',
      hand.longestWait === null || !planned ? null : hand.longestWait / 60,
      null,
      '(pack energy - one descent) / standby power',
      !planned && hand.longestWait !== null
        ? NO_HEIGHT
        : hand.longestWait === null
          ? 'Nothing draws power while it waits.'
          : 'Down to an empty pack; thrust fails long before. `assess` shows what a wait costs.',
    ),
  ];
}

function orNull(value: number | null): number | null {
  return value !== null && Number.isFinite(value) ? value : null;
}
