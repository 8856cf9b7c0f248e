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
    measured:
      'Run one rotor on a thrust stand at full throttle for some seconds, with the pack that flies, and read thrust, power and voltage together.',
    usual: 'A stand is right to 3 %, four rotors in the can to 5 to 10 % (common practice, no source).',
    unit: 'gf',
    least: '1 gf',
    most: '100 kgf',
    better: 'high',
  }),
  bench_power: quantity('power', 'Electrical power of one rotor at full throttle on the stand.', {
    measured: 'Read voltage times current in the same run as the thrust, before the motor controller.',
    usual: 'It is two to five times the ideal power of momentum theory (common practice, no source).',
    unit: 'W',
    least: '0.5 W',
    most: '20 kW',
    better: 'low',
  }),
  bench_voltage: quantity('voltage', 'Voltage at the motor controller during that measurement.', {
    measured: 'Read it at the motor controller while the rotor runs, not at rest.',
    usual: 'It is 5 to 15 % under the voltage at rest (common practice, no source).',
    unit: 'V',
    least: '1 V',
    most: '100 V',
  }),
  bench_density: quantity('density', 'Air density during that measurement.', {
    measured: 'Compute it from pressure and temperature of the room: p / (287.05 T).',
    usual: 'It is 1.15 to 1.25 kg/m^3 near sea level.',
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
      measured: 'Hold the finished can on a scale at full throttle, and divide by four times the thrust of one rotor.',
      usual: 'It is 0.9 to 1 in the can; worn or nicked propellers lose some per cent (common practice, no source).',
      unit: '',
      least: '0.1',
      most: '2',
      standard: '1',
      better: 'high',
    },
  ),
  own_thrust_factor: quantity('ratio', 'Factor on the thrust of each rotor about the common factor.', {
    measured: 'Run each of the four rotors on the thrust stand.',
    usual: 'Motors of one batch are 1 to 3 % apart (common practice, no source).',
    unit: '',
    least: '0.5',
    most: '1.5',
    standard: '{ normal: { mean: 1, sd: 0.02 }, kind: fixed but not measured }',
    each: ROTORS,
    better: 'high',
  }),
  voltage_exponent: quantity('ratio', 'Thrust goes with voltage to this power.', {
    unit: '',
    least: '0.5',
    most: '3',
    standard: '2',
  }),
  zero_thrust_speed: quantity('speed', 'Axial climb speed at which full throttle gives no thrust, at bench voltage.', {
    measured:
      'Take pitch times turns per second at full throttle; a wind tunnel or a drive with the rotor out of a car measures it.',
    usual:
      'Pitch of 2 in at 40 000 turns a minute gives 34 m/s; the zero of a 3 x 2 in propeller lies at an advance ratio of 0.66 (UIUC Propeller Database, vol. 2).',
    unit: 'm/s',
    least: '5 m/s',
    most: '200 m/s',
  }),
  motor_lag: quantity('time', 'Time constant of the first-order motor response.', {
    measured: 'Step the throttle on the thrust stand and take the time to 63 % of the step.',
    usual: 'It is 30 to 80 ms for propellers of 3 in (common practice, no source).',
    unit: 'ms',
    least: '5 ms',
    most: '1 s',
    standard: '45 ms',
    better: 'low',
  }),
  start_time: quantity('time', 'From the moment the motors are told to start until a rotor gives thrust.', {
    measured:
      'Take it from a film or the sound of a start, best in the air stream of a fall, which turns the blades backwards.',
    usual:
      'Motors without sensors take 0.1 to 0.5 s from rest; it is 0 where they idle before (common practice, no source).',
    unit: 's',
    least: '0 s',
    most: '5 s',
    standard: `
  log-normal:
    median: { log-normal: { median: 0.25 s, spread: 0.4 }, kind: fixed but not measured }
    spread: 0.3
  kind: varies from flight to flight`,
    better: 'low',
  }),
  own_start_factor: quantity(
    'ratio',
    'Factor on the start time of each rotor; rotors that start apart kick the can over.',
    {
      measured: 'Take it from the same film or sound as the start time: how far apart the four start.',
      usual: 'Motors are a tenth to a fifth apart (own estimate, no source).',
      unit: '',
      least: '0',
      most: '5',
      standard: '{ log-normal: { median: 1, spread: 0.15 }, kind: varies from flight to flight }',
      each: ROTORS,
      better: 'low',
    },
  ),
  vortex_ring_depth: quantity('ratio', 'Share of thrust lost at the deepest point of the vortex ring state.', {
    measured:
      'Descend at 10 to 15 m/s and read how much more throttle it takes than in hover, or drop the craft at full throttle with a height log.',
    usual:
      'It is rarely measured and known to a factor of 2 to 4; 0.1 to 0.4 is a usual guess (common practice, no source).',
    unit: '',
    least: '0',
    most: '0.8',
    better: 'low',
  }),
  ring_fluctuation: quantity(
    'ratio',
    'Fluctuation of the thrust at the deepest point of the vortex ring state, root mean square over the mean.',
    {
      measured: 'Record a thrust stand in a wind tunnel, or the accelerometer in a slow descent.',
      usual:
        'Fluctuations of up to 95 % of the mean from peak to peak were seen (Stack, Caradonna and Savas, DTIC ADA529846), which is some 0.16.',
      unit: '',
      least: '0',
      most: '1',
      standard: '{ uniform: { from: 0.05, to: 0.2 }, kind: fixed but not measured }',
      better: 'low',
    },
  ),
  ring_strouhal: quantity(
    'ratio',
    'Corner frequency of that fluctuation times the rotor diameter over the induced speed in hover; slow fluctuations cost more height.',
    {
      measured: 'Take it from the spectrum of the same record.',
      usual: 'It is 0.07 to 0.17 for a 3 x 2 in propeller (own estimate, no source).',
      unit: '',
      least: '0.01',
      most: '3',
      standard: '{ uniform: { from: 0.07, to: 0.3 }, kind: fixed but not measured }',
      better: 'high',
    },
  ),
  windmill_power: quantity(
    'ratio',
    'Power of a rotor that falls through the air at two induced speeds or faster, over its static power at the same thrust: 0.4 without stall; near pitch / (2 pi torque_arm) where the blades stall, for a 3 x 2 in propeller 1.34.',
    {
      measured: 'Log the current in a drop at full throttle.',
      usual: 'It is 0.6 to 1.4 (own estimate: no source gives it for stalled propellers of fixed pitch).',
      unit: '',
      least: '0',
      most: '2',
      standard: '{ uniform: { from: 0.6, to: 1.4 }, kind: fixed but not measured }',
      better: 'low',
    },
  ),
  torque_arm: quantity('length', 'Shaft torque over thrust, CP D / (2 pi CT).', {
    measured: 'Measure the twist of one rotor on the stand beside its thrust, and divide.',
    usual: 'It is a twelfth of the diameter, 5 to 7 mm for propellers of 3 in (common practice, no source).',
    unit: 'mm',
    least: '0 mm',
    most: '200 mm',
    standard: '6 mm',
  }),
  dead: chance('Chance that a rotor does not run, for each one.', {
    measured: 'Count starts on the bench, all four motors, after drops and shakes: failures in trials.',
    usual:
      'No failure in n trials still means up to 3 in n, at 95 %; 0.05 to 0.5 % is a usual guess (own estimate, no source).',
    standard: '0',
    perfect: 'every rotor runs',
    each: ROTORS,
  }),
});
