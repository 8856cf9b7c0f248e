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
    fill_constant: quantity('ratio', 'Fill time is this many diameters over the speed at firing.', {
      unit: '',
      least: '1',
      most: '30',
      standard: '8',
      better: 'low',
    }),
    fire_below: quantity('length', 'Fires under this true height.', { unit: 'm', least: '1 m', most: '5000 m' }),
    fire_faster_than: quantity('speed', 'Fires only when falling faster than this.', {
      unit: 'm/s',
      least: '0 m/s',
      most: '100 m/s',
    }),
    failure: chance('Chance that it does not fire or open.', { standard: '0' }),
  },
);
