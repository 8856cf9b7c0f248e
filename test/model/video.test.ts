import { describe, expect, test } from 'vitest';
import { senderTemperature } from '../../sim/model/video.js';
import { expectWithin } from './near.js';

describe('the video sender', () => {
  const warmed = (wait: number) => senderTemperature(303.15, 2, 18, 720, wait);

  test("starts at the air's temperature and ends P R_th above it", () => {
    expect(warmed(0)).toBe(303.15);
    expectWithin(warmed(1e6), 303.15 + 36, 1e-9);
  });

  test('has 63.2 % of the rise after one time constant (first-order law)', () => {
    expectWithin((warmed(720) - 303.15) / 36, 1 - 1 / Math.E, 1e-12);
  });
});
