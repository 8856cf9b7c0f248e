/** When something of the flight's course is due. */

/** Times at which something is due; infinite where nothing is. */
export interface Timers {
  /** Motors may start from here on (order received, arms open); then the guard decides. */
  ready: number;
  start: number;
  guardSince: number;
  uprightSince: number;
  belowSince: number;
  /** Next time at which the link changes. */
  stick: number;
}

export function createTimers(): Timers {
  const never = Number.POSITIVE_INFINITY;
  return { ready: never, start: never, guardSince: never, uprightSince: never, belowSince: never, stick: never };
}

export function clearTimers(timers: Timers): void {
  const never = Number.POSITIVE_INFINITY;
  timers.ready = never;
  timers.start = never;
  timers.guardSince = never;
  timers.uprightSince = never;
  timers.belowSince = never;
  timers.stick = never;
}
