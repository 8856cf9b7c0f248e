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

/** Said where more than half of what the team had to find out is a guess. */
export function guessesWarning(scenario: Scenario, whose: string): readonly Warning[] {
  const own = scenario.inputs.filter(({ source }) => source !== 'decided' && source !== 'standard');
  const guessed = own.filter((input) => isGuess(input) || input.source === 'not said');
  if (guessed.length * 2 <= own.length) return [];
  return [
    {
      code: 'guesses',
      text: `${guessed.length} of ${own.length} inputs${whose} are guesses, not measured or of no stated source.`,
      advice: 'A good figure from guesses is worth little: `fallmargin check` ranks what to measure first.',
    },
  ];
}
