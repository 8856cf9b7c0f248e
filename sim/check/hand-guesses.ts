/** Guesses are ranked by how far each moves the hand calculation: what to measure before anything is flown. */

import { quantileOf } from '../distributions/law.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import type { ResolvedInput, Scenario } from '../scenario/scenario.js';
import { handNumbers } from './hand-numbers.js';
import type { HandGuess } from './result.js';

/** What was learnt from logs counts as a guess until they have halved its spread (common practice, no source). */
const HALVED = 0.5;

/** An input that nobody has measured: said to be a guess, of unknown source, or fixed but not measured. */
export function isGuess(input: ResolvedInput): boolean {
  if (input.source === 'guess') return true;
  if (input.source === 'learnt') return (input.learnt?.spreadLeft ?? 1) > HALVED;
  const { value } = input;
  return value.form === 'uncertain' && value.kind === 'fixed but not measured' && input.source !== 'measured';
}

/** Guesses with both their quantiles, ranked by the height that they move; a guess that moves nothing is left out. */
export function rankGuesses(scenario: Scenario, nominal: FlightInputs): readonly HandGuess[] {
  return scenario.inputs
    .filter((input) => isGuess(input) && input.shape === 'quantity' && input.value.form === 'uncertain')
    .map((input) => {
      const [low, high] = [0.05, 0.95].map((u) =>
        handNumbers(withInput(nominal, input.path, quantileOf(input.value, u))),
      );
      return {
        path: input.path,
        source: input.source,
        heightAtLow: low.lowestHeight,
        heightAtHigh: high.lowestHeight,
        thrustToWeightAtLow: low.thrustToWeight,
        thrustToWeightAtHigh: high.thrustToWeight,
      };
    })
    .filter((guess) => heightMoved(guess) > 0 || guess.thrustToWeightAtLow !== guess.thrustToWeightAtHigh)
    .toSorted((a, b) => heightMoved(b) - heightMoved(a));
}

/** Metres between both ends; infinite where the craft cannot stop at one of them. */
export function heightMoved({ heightAtLow, heightAtHigh }: HandGuess): number {
  if (heightAtLow === null && heightAtHigh === null) return 0;
  if (heightAtLow === null || heightAtHigh === null) return Number.POSITIVE_INFINITY;
  return Math.abs(heightAtHigh - heightAtLow);
}

/** Guesses without any spread: one number, so that no study can say what it costs to be wrong. */
export function guessesWithoutSpread(scenario: Scenario): readonly string[] {
  return scenario.inputs
    .filter((input) => input.source === 'guess' && input.value.form === 'fixed')
    .map((input) => input.path);
}

/** The inputs with an entry, "can.mass" for instance, at another value; on every axis where it has several. */
export function withInput(inputs: FlightInputs, path: string, value: number): FlightInputs {
  const changed = structuredClone(inputs);
  const names = path.split('.');
  const last = names.pop() as string;
  const section = names.reduce(
    (parent, name) => parent[name] as Record<string, unknown>,
    changed as Record<string, unknown>,
  );
  const before = section[last];
  section[last] = Array.isArray(before) ? before.map(() => value) : value;
  return changed;
}
