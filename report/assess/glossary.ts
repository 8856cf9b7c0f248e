/** The last section explains words: those of the trade, every cause, and the inputs that the first screen and its questions name. */
import type { AssessResult } from '../../sim/assess/result.js';
import { CAUSES } from '../../sim/flight/record.js';
import { meaningOfInput } from '../../sim/scenario/meaning.js';
import { meaningOfCause } from '../kit/words/names.js';
import { prose } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';

export interface Word {
  readonly term: string;
  readonly meaning: string;
}

export interface GlossarySection {
  readonly words: readonly Word[];
  readonly causes: readonly Word[];
  readonly inputs: readonly Word[];
}

const WORDS: readonly (readonly [term: string, meaning: string])[] = [
  [
    'Varies from flight to flight (aleatory)',
    'It is drawn anew in every flight, as a gust is; no measurement takes it away.',
  ],
  ['Not measured (epistemic)', 'It has one true value that nobody knows yet; a measurement narrows it.'],
  ['Plausible world', 'One draw of everything that is not measured: the truth may be any of them.'],
  ['Median', 'Half of the flights lie under it, half over it.'],
  ['Interval', 'It holds the true chance in 9 of 10 studies such as this; it knows of the number of flights alone.'],
  [
    'Flying on until it passes (optional stopping)',
    'Whoever adds flights until the answer pleases will get it by luck: that is no evidence.',
  ],
  [
    'Picked from many (selection bias)',
    'The best of many heights looks better than it is; fresh flights, flown after the choice, take that out.',
  ],
  ['Hand calculation', 'What a pencil can say before anything is flown: one ordinary flight, no gust, no failure.'],
  [
    'Vortex ring state',
    'The rotor sinks into its own wash and loses thrust, which cannot be flown out of in the stop.',
  ],
  ['Arming guard', 'The motors start only when the craft turns slowly and hangs nearly upright.'],
];

export function glossarySection(result: AssessResult): GlossarySection {
  const word = (term: string, meaning: string): Word => ({ term: prose(term), meaning: prose(meaning) });
  return {
    words: WORDS.map(([term, meaning]) => word(term, meaning)),
    causes: CAUSES.filter((cause) => cause !== 'none').map((cause) => word(capitalised(cause), meaningOfCause(cause))),
    inputs: inputsNamed(result).flatMap((path) => {
      const meaning = meaningOfInput(path);
      return meaning === null ? [] : [word(path, meaning)];
    }),
  };
}

/** Paths that stand in the warnings or head a list of what would help, what to measure or what may tip, in the definition's order. */
function inputsNamed({ warnings, help, measureFirst, tipping, scenario }: AssessResult): readonly string[] {
  const plain = (path: string) => path.replace(/[#[].*$/, '');
  const rows = [...(help?.rows ?? []), ...(measureFirst ?? []), ...(tipping?.rows ?? [])].map(({ path }) =>
    plain(path),
  );
  const said = warnings.map(({ text, advice }) => `${text} ${advice}`).join(' ');
  return scenario.inputs
    .map(({ path }) => path)
    .filter((path) => rows.some((row) => row === path || row.startsWith(`${path}.`)) || said.includes(path));
}
