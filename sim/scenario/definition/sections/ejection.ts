/** How the can leaves the rocket, and when its arms open. */
import { chance, choice, luck, quantity, section } from '../shapes.js';

const AXES = ['east', 'north'] as const;
const ARMS = ['arm 1', 'arm 2', 'arm 3', 'arm 4'] as const;

export const ejection = section('How the can leaves the rocket.', {
  height: quantity('length', 'Height above ground at ejection.', {
    measured: 'Take it from the altimeter of the rocket in earlier flights, else from its own simulation.',
    usual: 'It is known to 5 % of the height (common practice, no source).',
    unit: 'm',
    least: '5 m',
    most: '5000 m',
  }),
  horizontal_speed: quantity('speed', 'Horizontal speed over ground at ejection, on each axis.', {
    unit: 'm/s',
    least: '-200 m/s',
    most: '200 m/s',
    standard: '0 m/s',
    each: AXES,
  }),
  vertical_speed: quantity('speed', 'Vertical speed at ejection, upwards positive.', {
    unit: 'm/s',
    least: '-200 m/s',
    most: '200 m/s',
    standard: '0 m/s',
  }),
  east: quantity('length', 'Where it is ejected, east of the planned landing point.', {
    unit: 'm',
    least: '-20 km',
    most: '20 km',
    standard: '0 m',
  }),
  north: quantity('length', 'Where it is ejected, north of the planned landing point.', {
    unit: 'm',
    least: '-20 km',
    most: '20 km',
    standard: '0 m',
  }),
  tumble_rate: quantity(
    'angular rate',
    'Size of the turning rate at ejection; its axis is uniform over all directions.',
    {
      measured: 'Log the gyro on board in an ejection, also on the ground with the real charge.',
      usual: 'It is 100 to 1000 deg/s, known to a factor of 2 (common practice, no source).',
      unit: 'deg/s',
      least: '0 deg/s',
      most: '20000 deg/s',
      better: 'low',
    },
  ),
  strength: quantity('acceleration', 'Acceleration that the payload withstands.', {
    measured:
      'Drop the can on a mat in steps until something gives, with an accelerometer in it; then do not fly that can.',
    usual: 'Most teams do not know it (own estimate, no source).',
    unit: 'gee',
    least: '0 gee',
    aboveLeast: true,
    standard: '1000 gee',
    better: 'high',
  }),
  load: quantity('acceleration', 'Peak acceleration of the ejection charge.', {
    measured: 'Log an accelerometer of 200 gee or more in an ejection on the ground with the real charge.',
    usual: 'Ejection charges give 20 to 100 gee (own estimate, no source).',
    unit: 'gee',
    least: '0 gee',
    standard: '0 gee',
    perfect: 'the ejection charge breaks nothing',
    better: 'low',
  }),
  attitude: luck('Attitude at ejection, uniform over all rotations.', ['u1', 'u2', 'u3']),
  tumble_axis: luck('Axis of the tumble, uniform over all directions.', ['u1', 'u2']),
});

export const arms = section('The rotor arms.', {
  release: choice('When the arms are let go.', {
    'after ejection': 'a fixed delay after ejection',
    'on the order': 'by the throttle-up order',
  }),
  release_delay: quantity('time', 'From that moment to the release.', {
    unit: 's',
    least: '0 s',
    most: '120 s',
    standard: '0 s',
  }),
  opening_time: quantity('time', 'From the release to fully open, on the bench in still air.', {
    measured: 'Film an opening at 120 pictures a second or more, ten times.',
    usual: 'A spring takes 0.2 to 0.6 s (common practice, no source).',
    unit: 's',
    least: '0.01 s',
    most: '10 s',
    better: 'low',
  }),
  hinge_torque: quantity('torque', 'What opens an arm at its hinge in still air: the spring less friction.', {
    measured:
      'Hold the arm back at the rotor with a spring balance and let it open slowly: the force times the distance to the hinge.',
    usual: 'It is three to six times the weight of the arm times its length (common practice, no source).',
    unit: 'N m',
    least: '0 N m',
    aboveLeast: true,
    most: '5 N m',
    standard: '{ log-normal: { median: 0.06 N m, spread: 0.4 }, kind: fixed but not measured }',
    better: 'high',
  }),
  own_torque_factor: quantity('ratio', 'Factor on spring and friction of each arm, beside the common torque.', {
    measured: 'Pull at each of the four arms in the same way, several times.',
    usual: 'Arms are a tenth apart (own estimate, no source).',
    unit: '',
    least: '0.1',
    most: '10',
    standard: '{ log-normal: { median: 1, spread: 0.1 }, kind: varies from flight to flight }',
    each: ARMS,
    better: 'high',
  }),
  friction: quantity('ratio', "Share of the spring's torque with which friction holds an arm.", {
    measured:
      'Push the arm shut and let it open slowly with the spring balance: half the difference of the two forces over their mean.',
    usual: "Friction takes a tenth to two fifths of the spring's torque (own estimate, no source).",
    unit: '',
    least: '0',
    most: '0.9',
    standard: '{ uniform: { from: 0.1, to: 0.4 }, kind: fixed but not measured }',
    better: 'low',
  }),
  fold: choice(
    'Where the tips of the folded arms point: a stream from that side opens them.',
    {
      'tips down': 'away from the rotor thrust: the hinges are at the top',
      'tips up': 'along the rotor thrust: the hinges are below',
    },
    'tips down',
  ),
  longest_wait: quantity(
    'time',
    'How long after the release the motors wait for arms that do not open; left out, a second more than the opening time.',
    { unit: 's', least: '0 s', most: '60 s', optional: true, fixed: true },
  ),
  release_failure: chance('Chance that the common release fails and no arm opens.', {
    measured: 'Count releases with the flight pack and the flight thread or servo: failures in trials.',
    usual: 'No failure in n trials still means up to 3 in n, at 95 %.',
    standard: '0',
    perfect: 'the arms are always let go',
  }),
  stuck: chance('Chance that an arm stays shut, for each one.', {
    measured: 'Count openings of each arm, also after shakes and in the cold: failures in trials.',
    usual: 'No failure in n trials still means up to 3 in n, at 95 %.',
    standard: '0',
    perfect: 'no arm stays shut',
    each: ARMS,
  }),
});
