/** A scenario read back for a terminal: its inputs, the hand calculation, and the guesses that matter. */
import type { Warning } from '../../../sim/basics/warning.js';
import type { HandCalculation, HandRow } from '../../../sim/check/result.js';
import type { ResolvedInput, Scenario } from '../../../sim/scenario/scenario.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, labelled, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningSection } from '../../terminal/warnings.js';

/** Guesses shown; the rest moves less than these. */
const MOST_GUESSES = 8;

export function checkSummary(
  scenario: Scenario,
  hand: HandCalculation,
  warnings: readonly Warning[],
  paint: Paint,
): readonly string[] {
  return [
    paint('bold', `${scenario.title}: read without a problem`),
    ...changedLines(scenario.changed, paint),
    ...(scenario.invented ? ['Its numbers are invented for demonstration.'] : []),
    '',
    ...warningSection(warnings, paint),
    ...inputLines(scenario, paint),
    paint('bold', 'Hand calculation, beside one simulated flight with every input at its median'),
    ...columns([['', 'by hand', 'simulated', ''], ...hand.rows.map(handCells)], 2, [1, 2]),
    '',
    ...whyLines(hand.rows),
    ...guessLines(hand, paint),
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
      : columns([['from its 5 % to its 95 % quantile', 'lowest height by hand', 'thrust to weight'], ...rows]);
  const bare =
    withoutSpread.length === 0
      ? []
      : wrapped(
          `Guesses without a spread, whose effect nobody can rank: ${withoutSpread.join(', ')}. Write how far each may be off.`,
          2,
        );
  return [
    paint('bold', 'Guesses that move the hand calculation, the strongest first: measure these'),
    ...table,
    ...(more > 0 ? [`  and ${more} that move it less`] : []),
    ...bare,
  ];
}

function height(metres: number | null): string {
  return metres === null ? 'no stop' : `${metres.toFixed(0)} m`;
}
