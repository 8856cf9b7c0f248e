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
  dead: chance('Chance that a rotor does not run, for each one.', { standard: '0', each: ROTORS }),
});
