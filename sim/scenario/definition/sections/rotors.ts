/** The four rotors. */
import { chance, choice, quantity, section } from '../shapes.js';

const ROTORS = ['rotor 1', 'rotor 2', 'rotor 3', 'rotor 4'] as const;

export const rotors = section('Four rotors, as measured on a thrust stand.', {
  diameter: quantity('length', 'Propeller diameter.', { unit: 'in', least: '1 in', most: '20 in' }),
  distance_from_axis: quantity('length', 'From the axis of the can to the axis of each rotor.', {
    unit: 'mm',
    least: '10 mm',
    most: '1 m',
  }),
  height_above_centre_of_mass: quantity('length', 'Height of the rotor plane above the centre of mass, arms open.', {
    unit: 'mm',
    least: '-500 mm',
    most: '500 mm',
  }),
  bench_thrust: quantity('force', 'Static thrust of one rotor at full throttle on the stand.', {
    unit: 'gf',
    least: '1 gf',
    most: '100 kgf',
    better: 'high',
  }),
  bench_power: quantity('power', 'Electrical power of one rotor at full throttle on the stand.', {
    unit: 'W',
    least: '0.5 W',
    most: '20 kW',
    better: 'low',
  }),
  bench_voltage: quantity('voltage', 'Voltage at the motor controller during that measurement.', {
    unit: 'V',
    least: '1 V',
    most: '100 V',
  }),
  bench_density: quantity('density', 'Air density during that measurement.', {
    unit: 'kg/m^3',
    least: '0.4 kg/m^3',
    most: '1.6 kg/m^3',
    standard: '1.225 kg/m^3',
  }),
  thrust_measured: choice(
    'How the rotor was mounted as its thrust was measured: what its wash takes from the arm below it is then still to come off, or is off already.',
    { bare: 'without the arm in its wash', 'in the can': 'on its arm, as it flies' },
    'bare',
  ),
  thrust_factor: quantity(
    'ratio',
    'Factor on the thrust of all rotors: wear, installation, how far the stand may be off.',
    {
      unit: '',
      least: '0.1',
      most: '2',
      standard: '1',
      better: 'high',
    },
  ),
  own_thrust_factor: quantity(
    'ratio',
    'Factor on the thrust of each rotor about the common factor; measured by running each of the four on the thrust stand.',
    {
      unit: '',
      least: '0.5',
      most: '1.5',
      standard: '{ normal: { mean: 1, sd: 0.02 }, kind: fixed but not measured }',
      each: ROTORS,
      better: 'high',
    },
  ),
  voltage_exponent: quantity('ratio', 'Thrust goes with voltage to this power.', {
    unit: '',
    least: '0.5',
    most: '3',
    standard: '2',
  }),
  zero_thrust_speed: quantity('speed', 'Axial climb speed at which full throttle gives no thrust, at bench voltage.', {
    unit: 'm/s',
    least: '5 m/s',
    most: '200 m/s',
  }),
  motor_lag: quantity('time', 'Time constant of the first-order motor response.', {
    unit: 'ms',
    least: '5 ms',
    most: '1 s',
    standard: '45 ms',
    better: 'low',
  }),
  start_time: quantity(
    'time',
    'From the moment the motors are told to start until a rotor gives thrust; measured from a film or the sound of a start, best in the air stream of a fall, which turns the blades backwards; 0 where they idle before.',
    {
      unit: 's',
      least: '0 s',
      most: '5 s',
      standard: `
  log-normal:
    median: { log-normal: { median: 0.25 s, spread: 0.4 }, kind: fixed but not measured }
    spread: 0.3
  kind: varies from flight to flight`,
      better: 'low',
    },
  ),
  own_start_factor: quantity(
    'ratio',
    'Factor on the start time of each rotor; rotors that start apart kick the can over; measured with the start time.',
    {
      unit: '',
      least: '0',
      most: '5',
      standard: '{ log-normal: { median: 1, spread: 0.15 }, kind: varies from flight to flight }',
      each: ROTORS,
      better: 'low',
    },
  ),
  vortex_ring_depth: quantity('ratio', 'Share of thrust lost at the deepest point of the vortex ring state.', {
    unit: '',
    least: '0',
    most: '0.8',
    better: 'low',
  }),
  ring_fluctuation: quantity(
    'ratio',
    'Fluctuation of the thrust at the deepest point of the vortex ring state, root mean square over the mean; measured with a thrust stand in a wind tunnel, or from the accelerometer in a slow descent.',
    {
      unit: '',
      least: '0',
      most: '1',
      standard: '{ uniform: { from: 0.05, to: 0.2 }, kind: fixed but not measured }',
      better: 'low',
    },
  ),
  ring_strouhal: quantity(
    'ratio',
    'Corner frequency of that fluctuation times the rotor diameter over the induced speed in hover; slow fluctuations cost more height; measured with them.',
    {
      unit: '',
      least: '0.01',
      most: '3',
      standard: '{ uniform: { from: 0.07, to: 0.3 }, kind: fixed but not measured }',
      better: 'high',
    },
  ),
  windmill_power: quantity(
    'ratio',
    'Power of a rotor that falls through the air at two induced speeds or faster, over its static power at the same thrust: 0.4 without stall; near pitch / (2 pi torque_arm) where the blades stall, for a 3 x 2 in propeller 1.34; measured as the current in a drop at full throttle.',
    {
      unit: '',
      least: '0',
      most: '2',
      standard: '{ uniform: { from: 0.6, to: 1.4 }, kind: fixed but not measured }',
      better: 'low',
    },
  ),
  torque_arm: quantity('length', 'Shaft torque over thrust, CP D / (2 pi CT).', {
    unit: 'mm',
    least: '0 mm',
    most: '200 mm',
    standard: '6 mm',
  }),
  dead: chance('Chance that a rotor does not run, for each one.', {
    standard: '0',
    perfect: 'every rotor runs',
    each: ROTORS,
  }),
});
