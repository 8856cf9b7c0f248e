import { expect, test } from 'vitest';
import { humanDelay } from '../../sim/model/pilot.js';

test('a person takes the reaction, and the lapse where attention was elsewhere', () => {
  expect(humanDelay(1.18, false, 3)).toBe(1.18);
  expect(humanDelay(1.18, true, 3)).toBe(4.18);
});
