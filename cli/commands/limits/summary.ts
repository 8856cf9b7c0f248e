/** A day card for a terminal: the table in 80 columns, and what a cell means. A view of the result, no more. */
import type { CardAxis, CardCell, LimitsResult } from '../../../sim/limits/result.js';
import { inputByPath } from '../../../sim/scenario/lookup.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningSection } from '../../terminal/warnings.js';

export function limitsSummary(result: LimitsResult, paint: Paint): readonly string[] {
  return [...limitsLines(result, paint), ...meaning(result), ...warningSection(result.warnings, paint)];
}

/** The table alone, with its heading; all that --quiet prints. */
export function limitsLines(result: LimitsResult, paint: Paint): readonly string[] {
  const { rows, columns: across, cells, windCeiling, partial } = result;
  const heads = across.values.map((value) => shown(across, value));
  const grid = rows.values.map((value, row) => [
    shown(rows, value),
    ...cells.slice(row * heads.length, (row + 1) * heads.length).map((cell) => cellText(cell, heads.length)),
  ]);
  const table = columns(
    [['', ...heads], ...grid],
    2,
    [0, ...heads.keys()].map((_, index) => index),
  );
  const assumed = inputByPath(result.scenario, 'site.launch_wind_limit')?.source === 'standard';
  const ceiling =
    windCeiling === null
      ? []
      : wrapped(
          `${assumed ? 'Assumed by the program, as high-power rocketry codes have it' : 'Launch code'}: no launch in more wind than ${shown(windCeiling.axis === 'rows' ? rows : across, windCeiling.speed)}.`,
          2,
        ).map((line, index) => (index === 0 ? `  ${line}` : line));
  return [
    ...wrapped(
      `${result.scenario.title}: lowest throttle-up height shown to keep every limit. Down: ${rows.path}. Across: ${across.path}.${partial ? ' PARTIAL: interrupted.' : ''}`,
    ).map((line) => paint('bold', line)),
    ...changedLines(result.scenario.changed, paint),
    ...table,
    ...ceiling,
    '',
  ];
}

function shown({ unit, perSi, offset }: CardAxis, value: number): string {
  return `${Number((value * perSi + offset).toPrecision(3))} ${unit}`.trim();
}

/** Columns over which "do not fly" does not fit any more. */
const ROOMY = 5;

function cellText({ status, height, untried }: CardCell, count: number): string {
  if (status === 'height shown') return `${height} m${untried > 0 ? '*' : ''}`;
  if (status === 'do not fly') return count > ROOMY ? 'no' : 'do not fly';
  return status === 'no launch' ? (count > ROOMY ? 'over' : 'no launch') : '?';
}

function meaning(result: LimitsResult): readonly string[] {
  const { criteria, flights, heights, cells, rows, columns: across } = result;
  const limits = criteria.map(
    ({ name, limit, assumed }) =>
      `${name} at most ${Number((100 * limit).toPrecision(6))} %${assumed === true ? ' (assumed by the program)' : ''}`,
  );
  const ordered = [rows, across].every((input) => input.ordered);
  const step = heights.length > 1 ? heights[1] - heights[0] : 0;
  const starred = cells.some(({ untried }) => untried > 0)
    ? ` A height with * may be up to ${Math.max(...cells.map(({ untried }) => untried)) * step} m higher than need be.`
    : '';
  const reasons = whyNot(cells);
  return [
    ...wrapped(
      `In a cell both inputs are held, all else is as drawn. The upper end of the interval from ${flights} flights keeps ${limits.join(' and ')}; each cell stands by itself.${starred}`,
    ),
    ...wrapped(
      ordered
        ? 'Between two values take the harder one: the lower row, the column to the right.'
        : 'Between two values take the greater height; "do not fly" goes over any height.',
    ),
    ...(reasons === '' ? [] : wrapped(reasons)),
    ...wrapped(guessesText(result)),
    '',
  ];
}

/** What the cells do not tell. */
function guessesText({ guesses, inputs }: LimitsResult): string {
  return `How far a cell holds for what nobody has measured was not asked; ${guesses} of ${inputs} inputs are guesses.`;
}

function whyNot(cells: readonly CardCell[]): string {
  const missed = cells.flatMap(({ status, closest }) => (status === 'do not fly' ? (closest?.criteria ?? []) : []));
  const names = [...new Set(missed.map(({ name }) => name))].map((name) =>
    missed.some((one) => one.name === name && one.verdict === 'above')
      ? `${name} (above the limit)`
      : `${name} (not shown)`,
  );
  return names.length === 0 ? '' : `Where it says "do not fly", no height keeps: ${names.join(', ')}.`;
}
