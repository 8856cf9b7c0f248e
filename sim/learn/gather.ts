/**
 * Gathers worlds in waves until they weigh enough: the first wave as the inputs are held plausible, later waves where the
 * logs point.
 */
import { type LogGroup, logCorrections, movedScores, type Proposal, proposalFrom, type Wave } from './waves.js';
import { effectiveWorlds, jointLogLikelihoods } from './weigh.js';

/** Effective worlds after which no further wave is flown. */
export const ENOUGH_EFFECTIVE = 100;
/** The most waves after the first; each is half the size of the first. */
export const MOST_FURTHER = 4;

/** What can be flown, by number of the world. */
export interface WorldSource {
  readonly each: number;
  /** Independent standard normal numbers of these worlds as they are drawn. */
  natural(from: number, count: number): readonly Float64Array[];
  /**
   * Flies the next worlds, with these scores where scores are given, and returns how many worlds were flown whole: fewer
   * than asked only when stopped.
   */
  fly(from: number, count: number, scores: readonly Float64Array[] | null): Promise<number>;
  /** The logs with what all flights so far show. */
  groups(): readonly LogGroup[];
  /** Whether the logs lie within what the plausible worlds do, so that going after them is no extrapolation. */
  within(): boolean;
}

export interface Gathered {
  readonly waves: readonly Wave[];
  /** Of every world, in the order flown. */
  readonly scores: readonly Float64Array[];
  /**
   * Natural logarithm of the plausible over the drawn density of each world, and the sum of this and the log-likelihood.
   */
  readonly corrections: Float64Array;
  readonly logWeights: Float64Array;
  readonly effective: number;
  readonly stopped: boolean;
}

export async function gatherWorlds(source: WorldSource, worlds: number): Promise<Gathered> {
  const waves: Wave[] = [];
  const scores: Float64Array[] = [];

  /** Whether the whole wave was flown. */
  async function flyWave(count: number, proposal: Proposal | null): Promise<boolean> {
    const from = scores.length;
    const natural = source.natural(from, count);
    const wanted = proposal === null ? natural : natural.map((one) => movedScores(proposal, one));
    const flown = await source.fly(from, count, proposal === null ? null : wanted);
    scores.push(...wanted.slice(0, flown));
    if (flown > 0) waves.push({ worlds: flown, proposal });
    return flown === count;
  }

  function weighed(stopped: boolean): Gathered {
    const corrections = logCorrections(scores, waves);
    const logWeights = corrections.slice();
    if (scores.length > 0)
      for (const { values, logs } of source.groups())
        jointLogLikelihoods({ worlds: scores.length, each: source.each, values }, logs).forEach((one, i) => {
          logWeights[i] += one;
        });
    return { waves, scores, corrections, logWeights, effective: effectiveWorlds(logWeights), stopped };
  }

  let gathered = weighed(!(await flyWave(worlds, null)));
  const follows = !gathered.stopped && gathered.effective > 0 && scores[0].length > 0 && source.within();
  while (follows && !gathered.stopped && gathered.effective < ENOUGH_EFFECTIVE && waves.length <= MOST_FURTHER) {
    const proposal = proposalFrom(source.groups(), source.each, scores, gathered.logWeights);
    gathered = weighed(!(await flyWave(Math.ceil(worlds / 2), proposal)));
  }
  return gathered;
}
