import { describe, expect, test } from 'vitest';
import { terminalSpeed } from '../../sim/model/airframe.js';
import { GRAVITY } from '../../sim/model/atmosphere.js';
import { canopyDragArea, canopyPull, carriedVolume, filled, fillTime } from '../../sim/model/parachute.js';
import { expectRelative, expectWithin } from './near.js';

/** The can with its parachute of 0.9 m at 1.05 kg/m3. */
const MASS = 0.665;
const RHO = 1.05;
const FULL = 0.5 * RHO * canopyDragArea(0.75, 0.9);

/** Slows the can from v0 through the whole filling, without weight and without drag of its own (Runge-Kutta, 400 steps). */
function fillFrom(v0: number, carried: number) {
  const fill = fillTime(8, 0.9, v0);
  const steps = 400;
  const h = fill / steps;
  let v = v0;
  let largest = 0;
  const pullAt = (t: number, speed: number) => canopyPull(filled(t, fill), fill, FULL, carried, speed, 0, MASS);
  for (let k = 0; k < steps; k += 1) {
    const t = k * h;
    const a = -pullAt(t, v) / MASS;
    const b = -pullAt(t + h / 2, v + (h / 2) * a) / MASS;
    const c = -pullAt(t + h / 2, v + (h / 2) * b) / MASS;
    const d = -pullAt(t + h, v + h * c) / MASS;
    v += (h / 6) * (a + 2 * b + 2 * c + d);
    largest = Math.max(largest, pullAt(t + h, v));
  }
  return { fill, end: v, largest };
}

describe('a parachute', () => {
  test('of 0.6 m carries 0.5 kg down at 6.144 m/s at 1.225 kg/m3 (closed form; Cd 0.75 on flat cloth: common practice)', () => {
    expectWithin(terminalSpeed(0.5, GRAVITY, 1.225, canopyDragArea(0.75, 0.6)), 6.144, 5e-4);
  });

  test('fills in n D/v (Knacke, Parachute Recovery Systems Design Manual, 1992, from memory)', () => {
    expectWithin(fillTime(8, 0.9, 30), 0.24, 1e-12);
    expect(fillTime(8, 0.9, 0)).toBe(8 * 0.9); // never slower than at 1 m/s
    expect([-1, 0, 0.06, 0.24, 1].map((t) => filled(t, 0.24))).toEqual([0, 0, 0.25, 1, 1]);
  });

  test('of 0.9 m carries 0.0687353 kg of air of 1.05 kg/m3: half a ball of 0.63 m', () => {
    expectWithin(RHO * carriedVolume(0.5, 0.9), 0.0687353, 5e-8);
    expectRelative(carriedVolume(1, 0.9), (4 / 3) * Math.PI * 0.315 ** 3, 1e-12);
  });

  /*
   * Without carried air v = v0/(1 + A tau^3), A = rho Cd S n D/(6 m) = .904035 whatever v0; the pull is largest at
   * tau = (1/(2 A))^(1/3), (4/9) tau^2 of that of the full canopy at v0.
   */
  test.each([
    [30, 15.756, 67.512],
    [20, 10.504, 30.005],
    [12, 6.3024, 10.802],
  ])('opened at %d m/s slows the can to %d m/s and pulls at most %d N (closed form)', (v0, end, largest) => {
    const filledUp = fillFrom(v0, 0);
    expectWithin(filledUp.end, end, 1e-4);
    expectWithin(filledUp.largest, largest, 2e-3);
  });

  /** 1/p = 1/(m v0) + (rho Cd S t_f/6) tau^3/(m (m + m_a tau^3)), p = (m + m_a) v, m_a as above. */
  test.each([
    [30, 14.9447],
    [20, 9.9632],
    [12, 5.9779],
  ])('with the air that it carries slows the can from %d to %d m/s (closed form)', (v0, end) => {
    expectWithin(fillFrom(v0, RHO * carriedVolume(0.5, 0.9)).end, end, 1e-4);
  });

  test('full and steady pulls with the drag alone; sped up, with the share of the air carried; and never pushes', () => {
    const steady = 0.5 * RHO * canopyDragArea(0.75, 0.9) * 5 ** 2;
    const open = (force: number) => canopyPull(1, Number.POSITIVE_INFINITY, FULL, 0.07, 5, force, MASS);
    expectRelative(open(steady), steady, 1e-12);
    // m dv/dt = F - P and P = steady + 0.07 dv/dt.
    const acceleration = (9 - open(9)) / MASS;
    expectRelative(open(9), steady + 0.07 * acceleration, 1e-12);
    expect(canopyPull(1, Number.POSITIVE_INFINITY, FULL, 0.07, 0.1, -50, MASS)).toBe(0);
  });
});
