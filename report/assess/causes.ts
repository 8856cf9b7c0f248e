/** Section 6 tells what goes wrong and how often, at the planned height. */
import type { CauseRow } from '../../sim/assess/decisions.js';
import type { AssessResult } from '../../sim/assess/result.js';
import type { Proportion } from '../../sim/statistics/proportion.js';
import { percentParts, proportionText, riskWord } from '../../sim/statistics/words.js';
import type { Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { intervalChart, namesAxis } from '../kit/interval-chart.js';
import { type Table, table } from '../kit/table.js';
import { meaningOfCause } from '../kit/words/names.js';
import { countText, flightsText, metres } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';

export interface CausesSection {
  readonly figure: Figure | null;
  readonly nothing: string | null;
  readonly causes: Table | null;
}

export async function causesSection(result: AssessResult, draw: Draw): Promise<CausesSection> {
  const rows = result.causes;
  if (rows.length === 0) {
    const nothing = `All of ${flightsText(result.risk.flights)} at ${metres(result.plannedHeight)} landed softly, so there is no cause to show.`;
    return { figure: null, nothing, causes: null };
  }
  const caption = causesFinding(rows, result.plannedHeight);
  return {
    figure: await figure(draw, {
      id: 'causes',
      caption,
      charts: [(frame) => causesChart(rows, frame)],
      labels: [`Flights in 100 lost to each cause, with intervals. ${caption}`],
      table: null,
    }),
    nothing: null,
    causes: table(
      `Each failed flight at ${metres(result.plannedHeight)} counts once, for one cause; the interval shows how far the count can be trusted.`,
      ['Cause', '#Flights', '#Of all (90 % interval)', '#Of 100 failures', 'What it means'],
      [allTogether(result.risk), ...rows.map((row) => [...causeCells(row, rows), meaningOfCause(row.cause)])],
    ),
  };
}

function causesChart(rows: readonly CauseRow[], frame: Frame): ChartSpec {
  return intervalChart(
    rows.map(({ cause, risk }) => ({
      name: cause,
      estimate: 100 * risk.estimate,
      lower: 100 * risk.lower,
      upper: 100 * risk.upper,
    })),
    {
      height: 52 + 30 * rows.length,
      dot: null,
      names: namesAxis(frame, [130, 220], [118, 150]),
      scale: { zero: true, nice: true },
      axis: { title: 'Flights in 100', grid: true, tickCount: frame.narrow ? 3 : 7, format: '~r' },
    },
    frame,
  );
}

/** The hazard itself, with its word: a cause by itself has none, or dividing a cause would make the hazard look rarer. */
function allTogether(risk: Proportion): readonly string[] {
  return [
    'All causes together',
    countText(risk.count),
    proportionText(risk),
    '100',
    `The flight does not land softly: \u201c${riskWord(risk.upper)}\u201d in the words of MIL-STD-882E.`,
  ];
}

function causeCells({ cause, risk }: CauseRow, rows: readonly CauseRow[]): readonly string[] {
  return [
    capitalised(cause),
    countText(risk.count),
    proportionText(risk),
    String(Math.round((100 * risk.count) / failuresOf(rows))),
  ];
}

function failuresOf(rows: readonly CauseRow[]): number {
  return rows.reduce((sum, row) => sum + row.risk.count, 0);
}

function causesFinding(rows: readonly CauseRow[], height: number): string {
  const [first, second] = rows;
  const failures = failuresOf(rows);
  const at = metres(height);
  const share = (row: CauseRow) => `${percentParts(row.risk).estimate}\u00a0% of all flights`;
  if (second === undefined) {
    return failures === 1
      ? `At ${at} one failure was seen, from ${first.cause}: one says little.`
      : `At ${at} all ${countText(failures)} failures come from ${first.cause} (${share(first)}).`;
  }
  const few = failures < 30 ? ` Only ${countText(failures)} failures were seen: the order of the causes is loose.` : '';
  const most = Math.round((100 * first.risk.count) / failures);
  return `At ${at} the most frequent cause is ${first.cause} (${share(first)}, ${most} of 100 failures), then ${second.cause} (${share(second)}).${few}`;
}
