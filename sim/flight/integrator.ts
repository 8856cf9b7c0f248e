/**
 * The steps and the location of an event inside a step. The classical Runge-Kutta step of order four (Kutta 1901) serves
 * everywhere, the midpoint rule of order two serves the smooth stretches of powered flight.
 *
 * The motor lag, c' = (u - c)/tau, is the stiffest term. A midpoint step that is longer than CALM_LAGS lags solves it exactly,
 * for a command u that goes linearly through the commands at the step's start and at its middle (exponential midpoint rule:
 * Cox and Matthews, J. Comput. Phys. 176:430, 2002; form from memory).
 */

import { Slot } from '../model/scratch.js';
import { STATES, State } from '../model/state.js';
import { CALM_LAGS, EVENT_TOLERANCE } from './constants.js';
import type { Craft } from './craft.js';
import type { Rates, Situation } from './situation.js';

/** Evaluates k1 at the current state: the step then begins with it, and re-steps after an event reuse it. */
export function beginStep(rates: Rates, craft: Craft, s: Situation, states: number): void {
  const { y, start } = s;
  for (let i = 0; i < states; i += 2) {
    start[i] = y[i];
    start[i + 1] = y[i + 1];
  }
  s.scratch[Slot.Time] = s.time;
  rates(craft, s, start, s.k1);
}

/** From `start` and k1 at time s.time, the state h later into s.y (s.time stays), by s.method. */
export function step(rates: Rates, craft: Craft, s: Situation, states: number, h: number): void {
  if (s.method === 'midpoint') midpointStep(rates, craft, s, states, h);
  else rungeKuttaStep(rates, craft, s, states, h);
  normaliseAttitude(s.y);
}

function midpointStep(rates: Rates, craft: Craft, s: Situation, states: number, h: number): void {
  const { y, start, k1, k2, probe } = s;
  const half = 0.5 * h;
  const lags = states === STATES ? h * craft.perMotorLag : 0;
  const long = lags > CALM_LAGS;
  advance(probe, start, k1, half, states);
  const halfDecay = long ? Math.exp(-0.5 * lags) : 0;
  if (long) advanceThrust(probe, start, k1, (1 - halfDecay) / craft.perMotorLag);
  s.scratch[Slot.Time] = s.time + half;
  rates(craft, s, probe, k2);
  advance(y, start, k2, h, states);
  if (long) finishThrust(craft, s, lags, halfDecay * halfDecay);
}

/** The thrust fractions a while on, with the lag solved for the command at the start. */
function advanceThrust(into: Float64Array, from: Float64Array, rate: Float64Array, whole: number): void {
  for (let i = State.Thrust1; i < State.Charge; i += 1) into[i] = from[i] + whole * rate[i];
}

/** The thrust fractions at the end of a long step of so many lags; decay is exp(-lags). */
function finishThrust(craft: Craft, s: Situation, lags: number, decay: number): void {
  const { y, start, k1, k2, probe } = s;
  const lag = 1 / craft.perMotorLag;
  const first = lag * (1 - decay);
  const second = (2 * (decay - 1 + lags)) / lags;
  for (let i = State.Thrust1; i < State.Charge; i += 1) {
    const change = probe[i] - start[i] + lag * (k2[i] - k1[i]);
    y[i] = start[i] + first * k1[i] + second * change;
  }
}

function rungeKuttaStep(rates: Rates, craft: Craft, s: Situation, states: number, h: number): void {
  const { y, start, k1, k2, k3, k4, probe } = s;
  const half = 0.5 * h;
  const t = s.time;
  advance(probe, start, k1, half, states);
  s.scratch[Slot.Time] = t + half;
  rates(craft, s, probe, k2);
  advance(probe, start, k2, half, states);
  rates(craft, s, probe, k3);
  advance(probe, start, k3, h, states);
  s.scratch[Slot.Time] = t + h;
  rates(craft, s, probe, k4);
  const sixth = h / 6;
  for (let i = 0; i < states; i += 2) {
    y[i] = start[i] + sixth * (k1[i] + 2 * (k2[i] + k3[i]) + k4[i]);
    const j = i + 1;
    y[j] = start[j] + sixth * (k1[j] + 2 * (k2[j] + k3[j]) + k4[j]);
  }
}

/** into = from + h rate. Two at a time (their number is even), which the engine does faster. */
function advance(into: Float64Array, from: Float64Array, rate: Float64Array, h: number, states: number): void {
  for (let i = 0; i < states; i += 2) {
    into[i] = from[i] + h * rate[i];
    into[i + 1] = from[i + 1] + h * rate[i + 1];
  }
}

function normaliseAttitude(y: Float64Array): void {
  const w = y[State.AttitudeW];
  const a = y[State.AttitudeX];
  const b = y[State.AttitudeY];
  const c = y[State.AttitudeZ];
  const scale = 1 / Math.sqrt(w * w + a * a + b * b + c * c);
  y[State.AttitudeW] = w * scale;
  y[State.AttitudeX] = a * scale;
  y[State.AttitudeY] = b * scale;
  y[State.AttitudeZ] = c * scale;
}

const LARGEST_TRIES = 40;

/**
 * Time after the step's start at which `margin(y)` crosses zero inside a step of length h that has just been made, and
 * the state there in s.y: regula falsi (Illinois) on steps of the same method from the same start.
 */
export function locate(
  rates: Rates,
  craft: Craft,
  s: Situation,
  states: number,
  h: number,
  margin: (craft: Craft, y: Float64Array) => number,
): number {
  let a = 0;
  let b = h;
  let fa = margin(craft, s.start);
  let fb = margin(craft, s.y);
  let side = 0;
  for (let k = 0; k < LARGEST_TRIES && b - a > EVENT_TOLERANCE; k += 1) {
    let c = fb === fa ? 0.5 * (a + b) : (a * fb - b * fa) / (fb - fa);
    // Stay clear of the ends, so that the bracket shrinks from both sides.
    const guard = 0.25 * EVENT_TOLERANCE;
    if (c < a + guard) c = a + guard;
    if (c > b - guard) c = b - guard;
    step(rates, craft, s, states, c);
    const fc = margin(craft, s.y);
    if (fc === 0) return c;
    if (fc > 0 === fb > 0) {
      b = c;
      fb = fc;
      if (side === 1) fa *= 0.5;
      side = 1;
    } else {
      a = c;
      fa = fc;
      if (side === -1) fb *= 0.5;
      side = -1;
    }
  }
  step(rates, craft, s, states, b);
  return b;
}
