import { describe, expect, test } from 'vitest';
import { terminalSpeed } from '../../sim/model/airframe.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { canopyDragArea, filling, fillTime } from '../../sim/model/parachute.js';
import { expectWithin } from './near.js';

describe('a parachute', () => {
  test('of 0.6 m carries 0.5 kg down at 6.144 m/s at 1.225 kg/m3 (computed; Cd 0.75 on the cloth: Potvin)', () => {
    expectWithin(terminalSpeed(0.5, GRAVITY, 1.225, canopyDragArea(0.75, 0.6)), 6.144, 5e-4);
  });

  test('fills in n D/v (Knacke, Parachute Recovery Systems Design Manual, 1992, from memory)', () => {
    expectWithin(fillTime(8, 0.9, 30), 0.24, 1e-12);
    expect(fillTime(8, 0.9, 0)).toBe(8 * 0.9); // never slower than at 1 m/s
  });

  test('grows as (t/t_f)^2 to its full area', () => {
    expect([-1, 0, 0.06, 0.12, 0.24, 1].map((t) => filling(t, 0.24))).toEqual([0, 0, 0.0625, 0.25, 1, 1]);
  });
});
