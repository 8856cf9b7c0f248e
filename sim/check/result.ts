/** The hand calculation is plain data, ready for JSON. */

/** One line of the hand calculation. Null where it does not apply; `why` says so, or why the two differ. */
export interface HandRow {
  readonly name: string;
  readonly unit: string;
  readonly byHand: number | null;
  readonly simulated: number | null;
  readonly formula: string;
  readonly why: string;
}

/** How far one guess moves the lowest throttle-up height by hand, from its 5 % to its 95 % quantile, all else at the median. */
export interface HandGuess {
  readonly path: string;
  readonly source: string;
  /** Metres; null where it cannot stop at all. */
  readonly heightAtLow: number | null;
  readonly heightAtHigh: number | null;
  readonly thrustToWeightAtLow: number;
  readonly thrustToWeightAtHigh: number;
}

/** The hand calculation that anybody can check with a pencil, and the simulated nominal flight beside it. */
export interface HandCalculation {
  readonly rows: readonly HandRow[];
  /** Unmeasured inputs that move it, the strongest first. */
  readonly guesses: readonly HandGuess[];
  /** Guesses written as one fixed number, whose effect nobody can rank before they get a spread. */
  readonly withoutSpread: readonly string[];
}

/** Whether it flies at all, with every input at its median. */
export interface FlyAnswer {
  readonly flies: boolean;
  /** Thrust to weight at full throttle on the site, less what the wash takes from the arms. */
  readonly thrustToWeight: number;
  /** The same of the bare rotors: the figure of the hand calculation. */
  readonly bareThrustToWeight: number;
  readonly sentence: string;
}

/** A figure that contradicts another, or lies beyond what such parts do; both numbers in the unit. */
export interface Doubt {
  readonly code: string;
  readonly found: number;
  readonly bound: number;
  readonly unit: string;
  readonly text: string;
  readonly advice: string;
}
