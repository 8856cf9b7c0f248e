/** The adaptive solver of the second implementation: it shares no code with the program, and finds events inside its steps. */
import { Solver } from 'odex';

/** Falls to zero at the event. */
export type Watch = (time: number, state: readonly number[]) => number;

export interface Reached {
  readonly t: number;
  readonly y: number[];
  /** Index of the watch that fell to zero first; -1 at the end. */
  readonly found: number;
  readonly evaluations: number;
}

export interface Limits {
  /** Relative and absolute error of a step. */
  readonly tolerance: number;
  readonly firstStep?: number;
  readonly largestStep?: number;
}

type Derivative = Parameters<Solver['solve']>[0];

/** Goes on from `begin` to the time `end`, or to the first of `watches` that falls to zero. Throws where the solver gives up. */
export function solveTo(
  derivative: Derivative,
  begin: { readonly t: number; readonly y: number[] },
  end: number,
  watches: readonly Watch[],
  { tolerance, firstStep, largestStep }: Limits,
  onStep?: (time: number, state: readonly number[]) => void,
): Reached {
  const solver = new Solver(begin.y.length);
  solver.relativeTolerance = tolerance;
  solver.absoluteTolerance = tolerance;
  solver.denseOutput = true;
  solver.maxSteps = 100_000;
  if (firstStep !== undefined) solver.initialStepSize = firstStep;
  if (largestStep !== undefined) solver.maxStepSize = largestStep;
  let found = -1;
  let at: { readonly t: number; readonly y: number[] } | undefined;
  const before = watches.map((watch) => watch(begin.t, begin.y));
  const solution = solver.solve(derivative, begin.t, begin.y, end, (step, from, to, now, within) => {
    onStep?.(to, now);
    if (step === 1) return;
    const stateAt = (time: number) => now.map((_, i) => within(i, time));
    const parts = 4;
    for (let part = 1; part <= parts; part++) {
      const left = from + ((to - from) * (part - 1)) / parts;
      const right = from + ((to - from) * part) / parts;
      const state = part === parts ? now : stateAt(right);
      let first = right;
      watches.forEach((watch, i) => {
        const value = watch(right, state);
        if (before[i] > 0 && value <= 0) {
          const crossing = bisect((time) => watch(time, stateAt(time)), left, right);
          if (crossing <= first) {
            first = crossing;
            found = i;
          }
        }
        before[i] = value;
      });
      if (found >= 0) {
        at = { t: first, y: stateAt(first) };
        return false;
      }
    }
    return undefined;
  });
  if (solution.outcome === 1) throw new Error('Too many steps.');
  return { ...(at ?? { t: end, y: [...solution.y] }), found, evaluations: solution.nEval };
}

function bisect(f: (time: number) => number, left: number, right: number): number {
  let before = left;
  let after = right;
  for (let i = 0; i < 60; i++) {
    const middle = (before + after) / 2;
    if (f(middle) <= 0) after = middle;
    else before = middle;
  }
  return after;
}
