/** An input as the questions "what would help" and "how wrong may it be" see it. */
import { isSoft } from '../../flight/record.js';

export interface AskedInput {
  /** A name that changes understand, such as "pilot.reaction" or "pilot.reaction.median". */
  readonly path: string;
  /** Which side is better for the landing; undefined where that is not known. */
  readonly better?: 'low' | 'high' | 'middle';
  /** An event that happens or not: at its median it does not, so its median is its better end. */
  readonly isEvent?: boolean;
}

/** The better end: one flight in twenty is better still. */
export const BETTER_END = 0.05;
/** The pessimistic quarter begins here. */
export const PESSIMISTIC_QUARTER = 0.25;

/**
 * Quantile of the input that cuts off its worse `share`: 1 - share where low is better, share where high is. For one
 * that is best in the middle the worse share lies half at each end, and the upper end is taken. Null where the better
 * side is not known.
 */
export function worseQuantile({ better }: AskedInput, share: number): number | null {
  if (better === 'low') return 1 - share;
  if (better === 'high') return share;
  return better === 'middle' ? 1 - share / 2 : null;
}

/**
 * The better side of an input by the flights already flown: "low" when the flights with the upper half of its uniform
 * numbers fail more often by at least three standard deviations, "high" the other way round; else undefined.
 */
export function betterSideOf(uniforms: ArrayLike<number>, outcome: ArrayLike<number>): 'low' | 'high' | undefined {
  let [low, high] = [0, 0];
  for (let id = 0; id < outcome.length; id++) {
    if (isSoft(outcome[id])) continue;
    if (uniforms[id] < 0.5) low += 1;
    else high += 1;
  }
  if ((high - low) ** 2 < 9 * (high + low)) return undefined;
  return high > low ? 'low' : 'high';
}
