/**
 * The cause of a flight that is not soft though nothing broke. The flight is flown again on the same draws, each time with one
 * suspect at its median (an event: not happening); the suspect whose cure leaves the most margin is the cause.
 */

import type { Change, FlightDraw } from '../draws/draw.js';
import type { NoiseName } from '../draws/noise.js';
import type { InputPath, LuckPath } from '../scenario/definition/paths.js';
import { causeIndex, columnIndex } from './ending.js';
import type { FlightModel, FlightRecord } from './flight.js';
import { type Cause, isSoft } from './record.js';

const median = (...paths: readonly (InputPath | LuckPath | NoiseName)[]): readonly Change[] =>
  paths.map((path) => ({ path, quantile: 0.5 }));

/** The suspects and the inputs that each stands for. */
export const SUSPECTS: readonly (readonly [Cause, readonly Change[]])[] = [
  [
    'height judged',
    median(
      'pilot.call_out.bias',
      'pilot.call_out.flow_error',
      'pilot.call_out.latency',
      'pilot.picture.judgement',
      'noise.call_out',
    ),
  ],
  ['reaction', median('pilot.reaction')],
  ['lapse', median('pilot.lapse')],
  ['outage', median('noise.outages')],
  [
    'stabilising',
    median(
      'ejection.tumble_rate',
      'ejection.attitude',
      'ejection.tumble_axis',
      'can.tumble_floor',
      'can.slender_body_factor',
      'stabiliser.gyro_scale_error',
      'stabiliser.gyro_bias',
      'stabiliser.starting_error',
      'arms.opening_time',
      'arms.hinge_torque',
      'arms.own_torque_factor',
      'arms.friction',
      'rotors.own_start_factor',
    ),
  ],
  [
    'thrust loss',
    median(
      'rotors.vortex_ring_depth',
      'rotors.thrust_factor',
      'rotors.own_thrust_factor',
      'rotors.ring_fluctuation',
      'rotors.ring_strouhal',
      'rotors.windmill_power',
      'noise.ring',
      'rotors.motor_lag',
      'rotors.start_time',
      'battery.capacity',
      'battery.resistance',
      'battery.standby_power',
      'pad.wait',
      'site.temperature',
      'can.mass',
      'can.drag_factor',
      'can.centre_of_mass_offset',
      'can.wash_share',
      'can.windmilling_factor',
      'can.arm_drag_area',
      'can.blade_drag_area',
    ),
  ],
  [
    'wind and touchdown',
    median(
      'wind.speed',
      'wind.gust_factor',
      'pilot.ground_speed_error',
      'ejection.horizontal_speed',
      'noise.gusts',
      'noise.throttle',
    ),
  ],
];

const NOT_SOUGHT = causeIndex('not sought');
const SEVERAL = causeIndex('several together');
const TOUCHDOWN_SPEED = columnIndex('touchdown_speed');

/**
 * Index into CAUSES for a record just flown at `height`.
 *
 * @param redraw the same flight's draw with changes
 */
export function seekCause(
  model: FlightModel,
  redraw: (changes: readonly Change[]) => FlightDraw,
  height: number,
  record: FlightRecord,
): number {
  if (isSoft(record.outcome) || record.cause !== NOT_SOUGHT) return record.cause;
  let cause = SEVERAL;
  let gentlest = Number.POSITIVE_INFINITY;
  for (const [suspect, changes] of SUSPECTS) {
    model.fly(redraw(changes), [height], (_, again) => {
      const speed = again.values[TOUCHDOWN_SPEED];
      if (isSoft(again.outcome) && speed < gentlest) {
        gentlest = speed;
        cause = causeIndex(suspect);
      }
    });
  }
  return cause;
}
