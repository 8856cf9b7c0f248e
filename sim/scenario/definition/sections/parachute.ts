/** The back-up parachute. */
import { chance, optionalSection, quantity } from '../shapes.js';

export const parachute = optionalSection(
  'A back-up parachute that fires by itself; without the section there is none. Carry its mass in can.mass.',
  {
    diameter: quantity('length', 'Diameter of the cloth laid flat.', {
      unit: 'm',
      least: '0.05 m',
      most: '20 m',
      better: 'high',
    }),
    drag_coefficient: quantity('ratio', 'Drag coefficient on the total cloth area.', {
      unit: '',
      least: '0.1',
      most: '2.5',
      standard: '0.75',
      better: 'high',
    }),
    deployment_time: quantity('time', 'From firing until the lines are stretched and the cloth begins to fill.', {
      measured: 'Film drops from a mast or a drone.',
      usual: 'It takes 0.2 to 0.6 s (common practice, no source).',
      unit: 's',
      least: '0 s',
      most: '5 s',
      standard: `
  log-normal:
    median: { log-normal: { median: 0.35 s, spread: 0.28 }, kind: fixed but not measured }
    spread: 0.3
  kind: varies from flight to flight`,
      better: 'low',
    }),
    fill_constant: quantity('ratio', 'Fill time is this many diameters over the airspeed at line stretch.', {
      unit: '',
      least: '1',
      most: '30',
      standard: '{ log-normal: { median: 8, spread: 0.3 }, kind: fixed but not measured }',
      better: 'low',
    }),
    added_mass: quantity(
      'ratio',
      'Air carried along by the open canopy, as a share of the ball of its inflated diameter.',
      {
        unit: '',
        least: '0',
        most: '2',
        standard: '{ uniform: { from: 0.25, to: 1 }, kind: fixed but not measured }',
      },
    ),
    fire_below: quantity('length', 'Fires at or under this barometric height.', {
      unit: 'm',
      least: '1 m',
      most: '5000 m',
    }),
    fire_faster_than: quantity('speed', 'Fires only when the barometric height falls faster than this over 0.6 s.', {
      unit: 'm/s',
      least: '0 m/s',
      most: '100 m/s',
    }),
    failure: chance('Chance that it does not fire or open.', {
      measured: 'Count ejections on the ground with the packed canopy: failures in trials.',
      usual: 'No failure in n trials still means up to 3 in n, at 95 %.',
      standard: '0',
      perfect: 'the parachute always opens',
    }),
  },
);
