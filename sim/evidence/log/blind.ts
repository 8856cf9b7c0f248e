/**
 * The upward acceleration where no g-meter tells it: what the mechanics of a fall, an arrest and an approach leave open.
 * SI, upwards positive, without gravity's share in a reading: 0 is steady motion.
 */

import { GRAVITY } from '../../model/atmosphere.js';
import type { FlightEvents } from './events.js';

/** What is assumed of the acceleration in one step: mean, standard deviation of its slow error and how long that lasts. */
export interface Assumed {
  /** g */
  readonly mean: number;
  readonly size: number;
  /** s */
  readonly time: number;
}

/** Terminal speed of a can that nobody saw fall, m/s. */
export const USUAL_FALL = 30;

/**
 * How rough each phase is, as a factor on what is assumed of its acceleration: a steady fall may be steadier than that.
 * The log tells it (`course.ts`).
 */
export interface Roughness {
  readonly fall: number;
  readonly braking: number;
  readonly approach: number;
  /** By how much the drag of a steady fall helps the thrust at first, g. */
  readonly dragging: number;
}

export const USUAL_ROUGHNESS: Roughness = { fall: 1, braking: 1, approach: 1, dragging: 0.3 };

/** What falls, arrests and approaches do: guesses on the rough side, common practice without a source. */
const FALL: Assumed = { mean: 0, size: 0.06, time: 1.5 };
const BUILDING_UP = 0.8;
const BRAKING: Assumed = { mean: 0.6, size: 0.35, time: 1 };
const DRAG_FADES = 0.7;
const TAKING_HOLD = 0.1;
const BEFORE_ARREST: Assumed = { mean: 0.5, size: 0.35, time: 0.5 };
const AFTER_ARREST: Assumed = { mean: 0.05, size: 0.35, time: 0.5 };
const APPROACH: Assumed = { mean: 0, size: 0.1, time: 0.7 };
const FLARE: Assumed = { mean: 0.15, size: 0.2, time: 0.7 };
/** s about the arrest in which the thrust comes down, and before the touchdown in which a hand flares. */
const EASING = 0.6;
const FLARING = 2;

/**
 * Falling from rest under quadratic drag, v = vt tanh(g t/vt), so that dv/dt = g sech^2(g t/vt); then thrust; then a
 * steady descent. The share of the weight that drag carries is the less sure the further it is from none and from all.
 */
export function assumedAcceleration(
  sinceEjection: number,
  now: number,
  { throttleUp, arrest, touchdown }: FlightEvents,
  fallSpeed: number,
  rough: Roughness,
): Assumed {
  if (throttleUp === null || now < throttleUp.time) {
    const left = leftOfWeight(sinceEjection, fallSpeed);
    return { mean: -left, size: FALL.size * rough.fall + BUILDING_UP * left * (1 - left), time: FALL.time };
  }
  if (arrest === null || now < arrest.time - EASING) {
    // What the drag did not carry yet when the motors took hold, thrust has to.
    const unsteady = leftOfWeight(throttleUp.time - now + sinceEjection, fallSpeed);
    return {
      mean: BRAKING.mean + (rough.dragging - unsteady) * Math.exp((throttleUp.time - now) / DRAG_FADES),
      size: BRAKING.size * rough.braking,
      // The first push is anybody's guess: nothing of the fall's small error carries over.
      time: now < throttleUp.time + TAKING_HOLD ? TAKING_HOLD / 2 : BRAKING.time,
    };
  }
  if (now < arrest.time + EASING) return now < arrest.time ? BEFORE_ARREST : AFTER_ARREST;
  if (touchdown !== null && now > touchdown.time - FLARING) return FLARE;
  return { ...APPROACH, size: APPROACH.size * rough.approach };
}

/** Share of the weight that the drag does not carry yet. */
function leftOfWeight(sinceEjection: number, fallSpeed: number): number {
  return 1 / Math.cosh((GRAVITY * sinceEjection) / fallSpeed) ** 2;
}
