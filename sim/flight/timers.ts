/** The timers of a flight: since when a condition has held, and when the link changes next. Timed events are due by them. */

/** Times in s from ejection; infinite while the condition does not hold. */
export interface Timers {
  /** The arming guard's limits are met. */
  guardSince: number;
  /** Tilt and turning rate are those of an upright craft. */
  uprightSince: number;
  /** The voltage is under the cut-off. */
  belowSince: number;
  /** The next change of the link. */
  link: number;
}

export function createTimers(): Timers {
  const timers = {} as Timers;
  clearTimers(timers);
  return timers;
}

export function clearTimers(timers: Timers): void {
  const never = Number.POSITIVE_INFINITY;
  timers.guardSince = never;
  timers.uprightSince = never;
  timers.belowSince = never;
  timers.link = never;
}
