/** Comparisons, day cards and reports share these warnings about a scenario. */
import type { Warning } from '../basics/warning.js';
import type { Scenario } from '../scenario/scenario.js';
import { isGuess } from './hand-guesses.js';

export function inventedWarning(...scenarios: readonly Scenario[]): readonly Warning[] {
  if (!scenarios.some(({ invented }) => invented)) return [];
  return [
    {
      code: 'invented',
      text: 'The numbers are invented for demonstration.',
      advice: 'Write your own scenario (fallmargin init); nothing here speaks of a real payload.',
    },
  ];
}

/** Of what the team has to find out: how many inputs there are, and how many are guesses or of no stated source. */
export function countGuesses(scenario: Scenario): { readonly guesses: number; readonly inputs: number } {
  const own = scenario.inputs.filter(({ source }) => source !== 'decided' && source !== 'standard');
  const guessed = own.filter((input) => isGuess(input) || input.source === 'not said');
  return { guesses: guessed.length, inputs: own.length };
}

/** Said where more than half of what the team had to find out is a guess. */
export function guessesWarning(scenario: Scenario, whose: string): readonly Warning[] {
  const { guesses, inputs } = countGuesses(scenario);
  if (guesses * 2 <= inputs) return [];
  return [
    {
      code: 'guesses',
      text: `${guesses} of ${inputs} inputs${whose} are guesses, not measured or of no stated source.`,
      advice: 'A good figure from guesses is worth little: `fallmargin check` ranks what to measure first.',
    },
  ];
}
