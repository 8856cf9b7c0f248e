/** How the can leaves the rocket, and when its arms open. */
import { chance, choice, luck, quantity, section } from '../shapes.js';

const AXES = ['east', 'north'] as const;
const ARMS = ['arm 1', 'arm 2', 'arm 3', 'arm 4'] as const;

export const ejection = section('How the can leaves the rocket.', {
  height: quantity('length', 'Height above ground at ejection.', { unit: 'm', least: '5 m', most: '5000 m' }),
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
      unit: 'deg/s',
      least: '0 deg/s',
      most: '20000 deg/s',
      better: 'low',
    },
  ),
  strength: quantity('acceleration', 'Acceleration that the payload withstands.', {
    unit: 'gee',
    least: '0 gee',
    aboveLeast: true,
    standard: '1000 gee',
    better: 'high',
  }),
  load: quantity('acceleration', 'Peak acceleration of the ejection charge.', {
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
  opening_time: quantity('time', 'From the release to fully open.', {
    unit: 's',
    least: '0.01 s',
    most: '10 s',
    better: 'low',
  }),
  release_failure: chance('Chance that the common release fails and no arm opens.', {
    standard: '0',
    perfect: 'the arms are always let go',
  }),
  stuck: chance('Chance that an arm stays shut, for each one.', {
    standard: '0',
    perfect: 'no arm stays shut',
    each: ARMS,
  }),
});
