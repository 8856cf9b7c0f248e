/** What a flight log says, as a versioned result: plain data, no NaN, no path, ready for JSON. */

import type { Versions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { ScenarioChange } from '../scenario/scenario.js';
import type { EnvelopePoint } from '../trace/result.js';

/** A moment of a flight: seconds after ejection with its 90 % range, and the height then. */
export interface LogEvent {
  readonly name: 'ejection' | 'throttle-up' | 'arrest' | 'touchdown';
  readonly time: number;
  readonly low: number;
  readonly high: number;
  readonly height: number | null;
}

/** A quantity of the flight with its 90 % range, SI. */
export interface LogQuantity {
  readonly name: QuantityName;
  readonly unit: string;
  readonly status: 'known' | 'not identifiable';
  readonly value: number | null;
  readonly low: number | null;
  readonly high: number | null;
  /** Why it is not identifiable, or how it was taken. */
  readonly why: string;
  /** Share of the scenario's flights under value, low and high; null without a scenario. */
  readonly percentile: readonly [number, number, number] | null;
}

export const QUANTITIES = {
  throttle_up_time: 's',
  throttle_up_height: 'm',
  height_below_plan: 'm',
  delay: 's',
  speed_at_throttle_up: 'm/s',
  mean_fall_speed: 'm/s',
  stopping_height: 'm',
  stopping_time: 's',
  touchdown_time: 's',
  touchdown_speed: 'm/s',
  peak_reading: 'gee',
} as const;

export type QuantityName = keyof typeof QUANTITIES;

export interface CoursePoint {
  /** s after ejection. */
  readonly time: number;
  /** 5, 50 and 95 %; fall speed downwards positive. Null where the log cannot tell. */
  readonly height: readonly [number, number, number];
  readonly speed: readonly [number, number, number];
}

export interface ReconstructResult {
  readonly kind: 'reconstruct';
  readonly versions: Versions;
  readonly file: string;
  readonly invented: boolean;
  readonly channels: 'reading and height' | 'reading' | 'height';
  readonly rows: number;
  /** s */
  readonly duration: number;
  readonly gaps: readonly { readonly from: number; readonly to: number }[];
  /** Smallest step between readings, gee and m; null without that channel. */
  readonly rounding: { readonly reading: number | null; readonly height: number | null };
  /** Reading at rest less 1, gee; null where no rest was seen. */
  readonly zeroError: number | null;
  readonly events: readonly LogEvent[];
  readonly quantities: readonly LogQuantity[];
  /** Empty where heights cannot be told at all. */
  readonly course: readonly CoursePoint[];
  /** The readings, thinned: time after ejection, gee, barometric height. */
  readonly measured: readonly {
    readonly time: number;
    readonly reading: number | null;
    readonly height: number | null;
  }[];
  readonly plannedHeight: number | null;
  readonly scenario: {
    readonly title: string;
    readonly hash: string;
    readonly changed: readonly ScenarioChange[];
    readonly seed: string;
    readonly flights: number;
    readonly envelope: readonly EnvelopePoint[];
  } | null;
  readonly warnings: readonly Warning[];
}
