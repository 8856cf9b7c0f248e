/** The part of the package that the second implementation uses; its own types come as source that strict rules reject. */
export declare class Solver {
  constructor(size: number);
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  maxStepSize: number;
  initialStepSize: number;
  denseOutput: boolean;
  solve(
    derivative: (t: number, y: number[]) => number[],
    start: number,
    y: readonly number[],
    end: number,
    observe: (
      step: number,
      from: number,
      to: number,
      y: number[],
      within: (component: number, t: number) => number,
    ) => boolean | undefined,
  ): { y: number[]; outcome: number; xEnd: number; nStep: number; nEval: number };
}
