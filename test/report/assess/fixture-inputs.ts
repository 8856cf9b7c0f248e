/** The resolved inputs of an invented scenario, as the reader of scenario files would hand them over. */

import type { FixedValue, UncertainValue } from '../../../sim/distributions/distribution.js';
import type { InputPath } from '../../../sim/scenario/definition/paths.js';
import type { ResolvedInput } from '../../../sim/scenario/scenario.js';

type Source = ResolvedInput['source'];

function fixed(
  path: InputPath,
  value: number,
  unit: string,
  perSi: number,
  written: string,
  source: Source,
  note = '',
) {
  return input(path, { form: 'fixed', value }, unit, perSi, written, source, note);
}

function input(
  path: InputPath,
  value: FixedValue | UncertainValue,
  unit: string,
  perSi: number,
  written: string,
  source: Source,
  note: string,
): ResolvedInput {
  const offset = unit === 'degC' ? -273.15 : 0;
  return { path, shape: 'quantity', value, unit, perSi, offset, source, note, written };
}

function normal(
  path: InputPath,
  mean: number,
  sd: number,
  unit: string,
  perSi: number,
  written: string,
  source: Source,
  measured: boolean,
  note = '',
): ResolvedInput {
  const value: UncertainValue = {
    form: 'uncertain',
    distribution: { family: 'normal', mean, sd },
    kind: measured ? 'varies from flight to flight' : 'fixed but not measured',
    atLeast: null,
    atMost: null,
  };
  return input(path, value, unit, perSi, written, source, note);
}

export const INPUTS: readonly ResolvedInput[] = [
  fixed('plan.throttle_up_height', 250, 'm', 1, '250 m', 'decided'),
  fixed('criteria.ground_impact_risk', 0.05, '%', 100, '5 %', 'decided'),
  fixed('criteria.recovery_circle.radius', 300, 'm', 1, '300 m', 'decided'),
  fixed('criteria.recovery_circle.chance_outside', 0.05, '%', 100, '5 %', 'decided'),
  fixed('criteria.vertical_speed', 5, 'm/s', 1, '5 m/s', 'standard'),
  fixed('criteria.horizontal_speed', 8, 'm/s', 1, '8 m/s', 'standard'),
  fixed('criteria.canopy_speed', 6, 'm/s', 1, '6 m/s', 'standard'),
  fixed('criteria.tilt', 0.5236, 'deg', 57.29578, '30 deg', 'standard'),
  fixed('site.elevation', 1180, 'm', 1, '1180 m', 'measured'),
  normal('site.temperature', 303.15, 4, 'degC', 1, 'normal, mean 30 degC, sd 4 K', 'measured', true, 'five summers'),
  {
    ...normal('wind.speed', 3, 1.6, 'm/s', 1, 'Weibull, shape 2, scale 3.5 m/s', 'measured', true),
    value: {
      form: 'uncertain',
      distribution: { family: 'weibull', shape: 2, scale: 3.5 },
      kind: 'varies from flight to flight',
      atLeast: null,
      atMost: 8.94,
    },
    written: 'Weibull, shape 2, scale 3.5 m/s, at most 20 mph',
  },
  normal('can.mass', 0.61, 0.005, 'g', 1000, 'normal, mean 610 g, sd 5 g', 'measured', true, 'kitchen scale'),
  {
    ...normal('can.drag_factor', 1, 0.08, '', 1, 'log-normal, median 1, spread 0.08', 'guess', false),
    note: 'tumbling is not in the tables',
  },
  fixed('rotors.diameter', 0.0762, 'in', 39.37, '3 in', 'datasheet'),
  normal('rotors.thrust_factor', 1, 0.03, '', 1, 'normal, mean 1, sd 0.03', 'guess', false),
  {
    ...normal('rotors.vortex_ring_depth', 0.25, 0.09, '', 1, 'uniform, 0.1 to 0.4', 'guess', false),
    note: 'not settled in print; the largest unknown <of all>',
  },
  fixed('battery.cells', 4, '', 1, '4', 'decided'),
  normal('battery.capacity', 1980, 59, 'mAh', 1 / 3.6, 'normal, mean 550 mAh, sd 3 %', 'datasheet', true),
  normal('battery.resistance', 0.055, 0.008, 'mohm', 1000, 'log-normal, median 55 mohm, spread 0.15', 'guess', true),
  fixed('battery.cut_off_voltage', 12.4, 'V', 1, '12.4 V', 'decided'),
  normal('pad.wait', 1700, 690, 'min', 1 / 60, 'triangular, 5, 20, 60 min', 'guess', true),
  normal('ejection.height', 720, 35, 'm', 1, 'normal, mean 720 m, sd 35 m', 'datasheet', true),
  normal('ejection.tumble_rate', 7, 3, 'deg/s', 57.29578, 'log-normal, median 400 deg/s, spread 0.5', 'guess', true),
  {
    path: 'arms.stuck',
    shape: 'chance',
    value: {
      form: 'uncertain',
      distribution: { family: 'trials', trials: 240, failures: 0 },
      kind: 'fixed but not measured',
      atLeast: null,
      atMost: null,
    },
    unit: '%',
    perSi: 100,
    offset: 0,
    source: 'measured',
    note: 'bench, 60 openings of four arms',
    written: '0 failures in 240 trials',
  },
  normal('pilot.reaction', 1.18, 0.5, 's', 1, 'log-normal, median 1.18 s, spread 0.44', 'guess', true),
  {
    path: 'pilot.lapse',
    shape: 'chance',
    value: { form: 'fixed', value: 0.03 },
    unit: '%',
    perSi: 100,
    offset: 0,
    source: 'not said',
    note: '',
    written: '0.03',
  },
  fixed('link.delay', 0.1, 's', 1, '0.1 s', 'standard'),
];
