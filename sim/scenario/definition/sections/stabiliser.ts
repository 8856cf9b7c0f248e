/** What holds the can upright. */
import { luck, optionalSection, quantity, section } from '../shapes.js';

const BODY_AXES = ['x', 'y', 'z'] as const;

export const stabiliser = section('What holds the can upright.', {
  gyro_range: quantity('angular rate', 'Full scale of the gyro on each axis.', {
    unit: 'deg/s',
    least: '50 deg/s',
    most: '20000 deg/s',
    standard: '2000 deg/s',
    better: 'high',
  }),
  gyro_scale_error: quantity('ratio', 'Relative scale error of the gyro.', {
    unit: '',
    least: '-0.5',
    most: '0.5',
    standard: '0',
    better: 'middle',
  }),
  gyro_bias: quantity('angular rate', 'Gyro reading at rest, on each body axis.', {
    unit: 'deg/s',
    least: '-100 deg/s',
    most: '100 deg/s',
    standard: '0 deg/s',
    each: BODY_AXES,
  }),
  starting_error: quantity('angle', 'Tilt by which the attitude estimate is wrong at ejection.', {
    unit: 'deg',
    least: '-180 deg',
    most: '180 deg',
    standard: '0 deg',
    better: 'middle',
  }),
  starting_error_axis: luck('Direction of that error.', ['u1']),
  reference_time: quantity('time', 'Time constant with which the estimate is drawn to the accelerometer near 1 g.', {
    unit: 's',
    least: '0.1 s',
    most: '100 s',
    standard: '2 s',
  }),
  reference_gate: quantity(
    'ratio',
    'Share of 1 g by which the accelerometer may be off and still be trusted: in full within 0.8 of it, not at all beyond 1.2 of it; a setting of the flight controller.',
    { unit: '%', least: '1 %', most: '100 %', standard: '15 %' },
  ),
  rate_gain: quantity('rate', 'Gain of the rate loop; the product with the motor lag is held at or under 0.6.', {
    unit: '1/s',
    least: '1/s',
    most: '100/s',
    standard: '10/s',
  }),
  attitude_gain: quantity('rate', 'Gain of the attitude loop.', {
    unit: '1/s',
    least: '0.1/s',
    most: '50/s',
    standard: '4/s',
  }),
  integral_gain: quantity(
    'rate',
    'Gain of the integral term of the rate loop about x and y, over its rate gain; a setting of the flight controller, 0 without one.',
    { unit: '1/s', least: '0/s', most: '6/s', standard: '2/s' },
  ),
  integral_limit: quantity(
    'ratio',
    'Share of the largest roll or pitch command that the integral term may take; a setting of the flight controller.',
    { unit: '', least: '0', most: '1', standard: '0.3' },
  ),
  largest_rate: quantity('angular rate', 'Largest turning rate that the attitude loop asks for.', {
    unit: 'deg/s',
    least: '10 deg/s',
    most: '2000 deg/s',
    standard: '400 deg/s',
  }),
  upright_tilt: quantity('angle', 'Tilt under which the craft counts as upright.', {
    unit: 'deg',
    least: '1 deg',
    most: '90 deg',
    standard: '30 deg',
  }),
  upright_rate: quantity('angular rate', 'Turning rate under which it counts as upright.', {
    unit: 'deg/s',
    least: '1 deg/s',
    most: '1000 deg/s',
    standard: '90 deg/s',
  }),
  upright_hold: quantity('time', 'How long both must hold.', {
    unit: 's',
    least: '0 s',
    most: '5 s',
    standard: '0.2 s',
  }),
  arming_guard: optionalSection(
    'A guard that arms the motors only when the craft is calm; without the section there is none.',
    {
      rate: quantity('angular rate', 'Arms only under this turning rate.', {
        unit: 'deg/s',
        least: '1 deg/s',
        most: '20000 deg/s',
      }),
      tilt: quantity('angle', 'Arms only under this tilt, as estimated on board.', {
        unit: 'deg',
        least: '1 deg',
        most: '180 deg',
      }),
      hold: quantity('time', 'How long both must hold.', { unit: 's', least: '0 s', most: '10 s', standard: '0 s' }),
    },
  ),
});
