/** The arms of the second implementation: when they are free, which way each turns, and what stops it. */
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';
import { AT, type Equations, type Stage } from './second-equations.js';
import type { Watch } from './second-solver.js';

const OPEN = Math.PI / 2;

export interface Arms {
  /** All that can are open. */
  readonly open: () => boolean;
  readonly isOpen: (arm: number) => boolean;
  /** When they come free, s; infinite where they are or never will. */
  readonly freeTime: (release: number) => number;
  /** They come free; the ways that they turn, for the stage. */
  readonly free: (t: number, y: number[], stage: Stage) => readonly number[];
  /** What may happen to an arm, and that the one of an index happens: the ways that they turn then. */
  readonly watches: (stage: Stage) => readonly Watch[];
  readonly happen: (index: number, t: number, y: number[], stage: Stage) => readonly number[];
  /** They are not waited for any longer. */
  readonly leave: (y: number[]) => readonly number[];
}

export function armsOf({ arms }: FlightInputs, equations: Equations): Arms {
  const { friction, armTorques, catchTime } = equations;
  const works = arms.stuck.map((stuck) => !stuck && !arms.release_failure);
  const latched = [false, false, false, false];
  let moving = false;
  let ways = [0, 0, 0, 0];

  /** Which way an arm at rest turns at once. */
  function wayOf(arm: number, torque: number, y: readonly number[]): number {
    if (!works[arm] || latched[arm]) return 0;
    if (torque > friction[arm]) return 1;
    return torque < -friction[arm] && y[AT.a + arm] > 0 ? -1 : 0;
  }

  function wake(t: number, y: number[], stage: Stage): readonly number[] {
    const torques = armTorques(t, y, stage);
    ways = ways.map((way, i) => (way === 0 ? wayOf(i, torques[i], y) : way));
    return ways;
  }

  return {
    open: () => works.every((one, i) => !one || latched[i]),
    isOpen: (arm) => latched[arm],
    freeTime: (release) => (moving ? Number.POSITIVE_INFINITY : release + catchTime),
    free(t, y, stage) {
      moving = true;
      return wake(t, y, stage);
    },
    // For each arm: it comes to its end, it comes to rest, it begins to turn.
    watches: (stage) =>
      [0, 1, 2, 3].flatMap((i): readonly Watch[] => {
        const way = ways[i];
        const rests = moving && way === 0 && works[i] && !latched[i];
        return [
          (_, y) => (way === 0 ? 1 : way > 0 ? OPEN - y[AT.a + i] : y[AT.a + i]),
          (_, y) => (way === 0 ? 1 : way * y[AT.da + i]),
          (t, y) => (rests && wayOf(i, armTorques(t, [...y], stage)[i], y) !== 0 ? -1 : 1),
        ];
      }),
    happen(index, t, y, stage) {
      const arm = Math.floor(index / 3);
      ways = ways.map((way, i) => {
        // Arms that turn alike come to their ends together.
        const ends = way !== 0 && (way > 0 ? OPEN - y[AT.a + i] : y[AT.a + i]) < 1e-9;
        if (!ends && (i !== arm || index % 3 === 2)) return way;
        y[AT.da + i] = 0;
        if (ends) y[AT.a + i] = way > 0 ? OPEN : 0;
        latched[i] ||= ends && way > 0;
        return 0;
      });
      return wake(t, y, stage);
    },
    leave(y) {
      for (let i = 0; i < 4; i++) y[AT.da + i] = 0;
      moving = true;
      works.fill(false);
      ways = [0, 0, 0, 0];
      return ways;
    },
  };
}
