import { expect, test } from 'vitest';
import { nearestName } from '../../sim/basics/nearest-name.js';

const NAMES = ['mass', 'length', 'drag_factor', 'throttle_up_height', 'varies from flight to flight'];

test.each([
  ['masss', 'mass'],
  ['amss', 'mass'],
  ['lenght', 'length'],
  ['Drag-Factor', 'drag_factor'],
  ['throttleup_hight', 'throttle_up_height'],
  ['varies', 'varies from flight to flight'],
])('%s is taken for %s', (written, name) => {
  expect(nearestName(written, NAMES)).toBe(name);
});

test.each(['colour', 'm', '', 'x'.repeat(1000)])('nothing is near %j', (written) => {
  expect(nearestName(written, NAMES)).toBeNull();
});

test('among no names none is near', () => {
  expect(nearestName('mass', [])).toBeNull();
});
