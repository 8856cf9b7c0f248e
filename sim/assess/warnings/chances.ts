/** These warnings tell how much of the risk rests on chances that were guessed as one number, or tried too few times. */

import type { InputPath } from '../../scenario/definition/paths.js';
import { inputByPath } from '../../scenario/lookup.js';
import type { ResolvedInput, Scenario } from '../../scenario/scenario.js';
import { proportionText } from '../../statistics/words.js';
import type { CauseRow } from '../decisions.js';
import { type Check, percent, warn } from './finding.js';

/** Causes that are one chance happening, with the chances that stand behind each, and how one of them is tried. */
const CHANCES: readonly (readonly [cause: string, path: InputPath, trial: string])[] = [
  ['ejection damage', 'ejection.load', 'Measure the load of the ejection charge'],
  ['ejection damage', 'ejection.strength', 'Shake the payload until it fails'],
  ['arm release', 'arms.release_failure', 'Release the arms'],
  ['arm shut', 'arms.stuck', 'Open the arms, each arm counted,'],
  ['rotor dead', 'rotors.dead', 'Start the motors, each rotor counted,'],
  ['lapse', 'pilot.lapse', 'Practise the order, without a word of when it comes,'],
  ['outage', 'link.outage_rate', 'Log the link over the range of the flight'],
];

export interface ExactGuesses {
  readonly failures: number;
  /** Failures whose cause comes from such a guess. */
  readonly count: number;
  readonly inputs: readonly ResolvedInput[];
}

/** Failures that come from guessed chances written as one number, which no spread between worlds tells of; null where none does. */
export function exactGuessesOf(scenario: Scenario, causes: readonly CauseRow[]): ExactGuesses | null {
  const failures = causes.reduce((sum, { risk }) => sum + risk.count, 0);
  const guessed = CHANCES.flatMap(([cause, path]) => {
    const input = inputByPath(scenario, path);
    const row = causes.find((one) => one.cause === cause);
    return input !== null && row !== undefined && isExactGuess(input) ? [{ input, row }] : [];
  });
  if (guessed.length === 0) return null;
  const rows = new Set(guessed.map(({ row }) => row));
  const count = [...rows].reduce((sum, { risk }) => sum + risk.count, 0);
  return { failures, count, inputs: guessed.map(({ input }) => input) };
}

/** A guess, or of no stated source, and one number all the same. */
function isExactGuess({ value, source }: ResolvedInput): boolean {
  return value.form === 'fixed' && value.value > 0 && (source === 'guess' || source === 'not said');
}

export function exactGuessesSentence({ failures, count, inputs }: ExactGuesses): string {
  const share = Math.max(1, Math.round((100 * count) / failures));
  const names = inputs.map(({ path, written }) => `${path} ${written}`).join(', ');
  return `${share} of 100 failures come from guesses taken as exact: ${names}.`;
}

export const exactGuesses: Check = ({ scenario, causes }) => {
  const found = exactGuessesOf(scenario, causes);
  if (found === null) return [];
  const claims = found.inputs.flatMap(({ shape, value, path }) =>
    shape === 'chance' && value.form === 'fixed' && value.value < 0.1
      ? [`${path} claims what about ${twoDigits(0.5 / value.value - 1)} trials without a failure would show`]
      : [],
  );
  const claim = claims.length === 0 ? '' : ` ${claims.join('; ')}.`;
  return [
    warn(
      'exact guesses',
      `${exactGuessesSentence(found)} What nobody has measured is wider than the study says.`,
      `Write how far each may be off, as a law, or try it and write trials and failures.${claim}`,
    ),
  ];
};

/** A chance from trials is named where it carries this share of the failures, and this share of all flights, or more. */
const SHARE_OF_FAILURES = 0.2;
const SHARE_OF_FLIGHTS = 0.005;
/** More trials are named that would take away most of what it carries. */
const MOST = 0.8;
const NUMBERS = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000];

export const fewTrials: Check = ({ scenario, causes, groundImpact: { risk } }) =>
  CHANCES.flatMap(([cause, path, trial]) => {
    const row = causes.find((one) => one.cause === cause);
    const law = lawOf(inputByPath(scenario, path));
    if (row === undefined || law?.family !== 'trials') return [];
    if (row.risk.count < SHARE_OF_FAILURES * risk.count || row.risk.estimate < SHARE_OF_FLIGHTS) return [];
    const { trials, failures } = law;
    const left = (more: number) => (trials + 1) / (trials + more + 1);
    const more = NUMBERS.find((one) => 1 - left(one) >= MOST) ?? NUMBERS[NUMBERS.length - 1];
    const after = risk.estimate - row.risk.estimate * (1 - left(more));
    return [
      warn(
        'few trials',
        `${Math.round((100 * row.risk.count) / risk.count)} of 100 failures rest on how few trials there are of ${path}: after ${failures} failures in ${trials} the chance counts as ${percent((failures + 0.5) / (trials + 1))}. That is honest, and no reason to prefer a guess.`,
        `${trial} ${more} times: with no failure the risk of ${proportionText(risk)} would be about ${percent(after)}.`,
      ),
    ];
  });

function lawOf(input: ResolvedInput | null) {
  return input?.value.form === 'uncertain' ? input.value.distribution : null;
}

function twoDigits(value: number): number {
  return Number(Math.max(1, value).toPrecision(2));
}
