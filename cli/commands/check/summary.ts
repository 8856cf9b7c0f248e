/** A checked scenario for a terminal: the answer first, then doubts, warnings, inputs, hand calculation and guesses. */
import type { Warning } from '../../../sim/basics/warning.js';
import type { Checked } from '../../../sim/check/check.js';
import type { Doubt, FlyAnswer, HandCalculation, HandRow } from '../../../sim/check/result.js';
import type { OpenDecision } from '../../../sim/scenario/open-decisions.js';
import type { ResolvedInput, Scenario } from '../../../sim/scenario/scenario.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, labelled, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningSection, warningTexts } from '../../terminal/warnings.js';

/** Guesses shown; the rest moves less than these. */
const MOST_GUESSES = 8;

export function checkSummary(
  scenario: Scenario,
  { answer, doubts, open, standInHeight, hand }: Checked,
  warnings: readonly Warning[],
  paint: Paint,
): readonly string[] {
  const beside =
    standInHeight === null
      ? []
      : wrapped(
          `No height is planned, so this flight throttles up at ${standInHeight.toFixed(0)} m, half of the height of ejection: no recommendation.`,
        );
  return [
    ...wrapped(answer.sentence).map((line) => paint(answer.flies ? 'bold' : 'yellow', line)),
    ...changedLines(scenario.changed, paint),
    ...wrapped(sayWhatFor(answer)),
    '',
    ...doubtLines(doubts, paint),
    ...openLines(open, scenario.file, paint),
    paint('bold', `${scenario.title}: read without a problem`),
    ...(scenario.invented ? ['Its numbers are invented for demonstration.'] : []),
    '',
    ...warningSection(warnings, paint),
    ...inputLines(scenario, paint),
    ...wrapped('Hand calculation, beside one simulated flight with every input at its median').map((line) =>
      paint('bold', line),
    ),
    ...beside,
    ...columns([['', 'by hand', 'simulated', ''], ...hand.rows.map(handCells)], 2, [1, 2]),
    '',
    ...whyLines(hand.rows),
    ...guessLines(hand, paint),
  ];
}

/** What the first answer holds for, and what it leaves open. */
function sayWhatFor({ flies, thrustToWeight, bareThrustToWeight }: FlyAnswer): string {
  const wash =
    bareThrustToWeight === thrustToWeight
      ? ''
      : ` What the rotors' wash takes from the arms is taken off: the bare rotors give ${bareThrustToWeight.toFixed(2)}.`;
  const more = flies ? ' How often it fails to land softly is another question, for `assess`.' : '';
  return `That is at full throttle after the wait on the pad, with every input at its median.${wash}${more}`;
}

function doubtLines(doubts: readonly Doubt[], paint: Paint): readonly string[] {
  if (doubts.length === 0)
    return [...wrapped('No figure is beyond what such parts usually do; that finds slips, not risks.'), ''];
  return [paint('bold', 'Not plausible: look at these first'), ...warningTexts(doubts, paint), ''];
}

function openLines(open: readonly OpenDecision[], file: string, paint: Paint): readonly string[] {
  if (open.length === 0) return [];
  return [
    ...wrapped(`Still to decide, by you; until it is written in ${file} no other command flies it`).map((line) =>
      paint('bold', line),
    ),
    ...open.flatMap(({ path, help }) =>
      wrapped(`${path}: ${help}`, 4).map((line, i) => (i === 0 ? `  ${line}` : line)),
    ),
    '',
  ];
}

/** Inputs section by section: name, value as written, kind and source; what is left out at the end. */
function inputLines({ inputs, settings, leftOut }: Scenario, paint: Paint): readonly string[] {
  const drawn = inputs.map((input) => ({ path: input.path, text: `${input.written} [${kindOf(input)}]` }));
  const set = Object.entries(settings)
    .filter(([path]) => !['title', 'about', 'invented'].includes(path))
    .map(([path, value]) => ({ path, text: typeof value === 'string' ? value : `${value.length} in the list` }));
  const entries = [...drawn, ...set, ...leftOut.map((path) => ({ path, text: 'left out' }))];
  const sections = [...new Set(entries.map(({ path }) => path.split('.')[0]))];
  return [
    paint('bold', 'Inputs'),
    ...sections.flatMap((name) => {
      const own = entries.filter(({ path }) => path.split('.')[0] === name);
      const rows = own.map(({ path, text }) => [path.slice(name.length + 1), text]);
      const [only] = rows;
      if (only[0] === '') return [`  ${name}: ${only[1]}`];
      const width = Math.max(...rows.map(([key]) => key.length));
      return [`  ${name}`, ...rows.flatMap(([key, text]) => labelled(`    ${key}`, text, width + 6))];
    }),
    '',
  ];
}

function kindOf({ value, source }: ResolvedInput): string {
  const kind =
    value.form === 'fixed' ? 'fixed' : value.kind === 'varies from flight to flight' ? 'varies' : 'not measured';
  return `${kind}, ${source}`;
}

function handCells({ name, unit, byHand, simulated }: HandRow): readonly string[] {
  return [name, figure(byHand), figure(simulated), unit];
}

/** Three digits: a hand calculation bears no more. */
function figure(value: number | null): string {
  if (value === null) return '-';
  const text = value.toPrecision(3);
  return text.includes('e') ? String(Math.round(value)) : text;
}

function whyLines(rows: readonly HandRow[]): readonly string[] {
  const lines = rows.flatMap(({ name, formula, why }) =>
    wrapped(`${name} = ${formula}.${why === '' ? '' : ` ${why}`}`, 4).map((line, index) =>
      index === 0 ? `  ${line}` : line,
    ),
  );
  return ['Where each comes from, and why the two differ:', ...lines, ''];
}

function guessLines({ guesses, withoutSpread }: HandCalculation, paint: Paint): readonly string[] {
  const rows = guesses
    .slice(0, MOST_GUESSES)
    .map(({ path, heightAtLow, heightAtHigh, thrustToWeightAtLow, thrustToWeightAtHigh }) => [
      path,
      `${height(heightAtLow)} to ${height(heightAtHigh)}`,
      `${thrustToWeightAtLow.toFixed(2)} to ${thrustToWeightAtHigh.toFixed(2)}`,
    ]);
  const more = guesses.length - MOST_GUESSES;
  const table =
    rows.length === 0
      ? ['  none']
      : columns([['from its 5 % to its 95 % quantile', 'bare minimum by hand', 'thrust to weight'], ...rows]);
  const bare =
    withoutSpread.length === 0
      ? []
      : wrapped(
          `Guesses without a spread, whose effect nobody can rank: ${withoutSpread.join(', ')}. Write how far each may be off.`,
          2,
        );
  return [
    ...wrapped('Guesses that move the hand calculation, the strongest first: measure these').map((line) =>
      paint('bold', line),
    ),
    ...wrapped(
      'Ranked is only what the hand calculation feels: no tumble, no arms that stay shut, no outage, no lapse. The report of `assess` ranks every guess by what it does to the risk.',
      2,
    ).map((line, index) => (index === 0 ? `  ${line}` : line)),
    ...table,
    ...(more > 0 ? [`  and ${more} that move it less`] : []),
    ...bare,
  ];
}

function height(metres: number | null): string {
  return metres === null ? 'no stop' : `${metres.toFixed(0)} m`;
}
