/** Three comparisons stand beside each other: at the planned heights, at A's planned height, at the aims. */
import type {
  CompareResult,
  CompareVerdict,
  ComparisonBasis,
  DesignComparison,
  NoComparison,
  PairedComparison,
} from '../../sim/compare/result.js';
import { differenceParts, proportionText, pValueText } from '../../sim/statistics/words.js';
import type { Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { BROKEN_AT_COMMAS, type IntervalRow, intervalChart, namesAxis } from '../kit/interval-chart.js';
import { colour } from '../kit/palette.js';
import { type Table, table } from '../kit/table.js';
import { countText, metres, plainText, unbroken, withMinus } from '../kit/words/numbers.js';
import { basisName, heightsText } from './heights-compared.js';

export interface DifferencesSection {
  readonly figure: Figure;
  readonly comparisons: Table;
  readonly missing: readonly string[];
  readonly search: string | null;
}

export async function differencesSection(result: CompareResult, draw: Draw): Promise<DifferencesSection> {
  const made = result.comparisons.filter((one): one is DesignComparison => one.status === 'compared');
  const missing = result.comparisons.filter((one): one is NoComparison => one.status === 'not compared');
  const caption = finding(made);
  const matters = 100 * result.matters;
  return {
    figure: await figure(draw, {
      id: 'differences',
      caption,
      charts: [(frame) => differencesChart(made, matters, frame)],
      labels: [`Flights in 100 that B saves, with 95 % intervals. ${caption}`],
      legend: [
        { symbol: 'swatch-tint', text: `less than ${plainText(matters)} flights in 100, which does not matter` },
      ],
      table: null,
    }),
    comparisons: comparisonsTable(made),
    missing: missing.map(({ basis, why }) => unbroken(`${basisName(basis)}: ${why}`)),
    search: searchNote(result),
  };
}

/** Flights in 100 that B saves, with the interval, against the difference that `matters`, in flights in 100 too. */
function differencesChart(made: readonly DesignComparison[], matters: number, frame: Frame): ChartSpec {
  const dots = made.map((one) => dot(one, frame.narrow));
  const sides = dots.flatMap(({ lower, upper }) => [lower, upper]);
  const most = Math.max(1.6 * matters, ...sides.map(Math.abs));
  const left = Math.min(-1.6 * matters, ...sides) - 0.04 * most;
  const right = Math.max(1.6 * matters, ...sides) + 0.04 * most;
  const scale = { domain: [left, right], nice: false };
  const x = { type: 'quantitative', scale } as const;
  return intervalChart(
    dots,
    {
      height: 62 + 42 * dots.length,
      dot: 80,
      names: { ...namesAxis(frame, [120, 240], [96, 190]), ...BROKEN_AT_COMMAS },
      scale,
      axis: {
        title: frame.narrow ? 'B saves, in 100 flights' : 'Flights in 100 that B saves (under 0: loses)',
        grid: true,
        tickCount: frame.narrow ? 4 : 7,
        format: '~r',
      },
      under: [
        {
          data: { values: [{ from: -matters, to: matters }] },
          mark: { type: 'rect', fill: colour('accent-tint') },
          encoding: { x: { ...x, field: 'from' }, x2: { field: 'to' } },
        },
        {
          data: { values: [{ none: 0 }] },
          mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1 },
          encoding: { x: { ...x, field: 'none' } },
        },
      ],
    },
    frame,
  );
}

function dot(comparison: DesignComparison, narrow: boolean): IntervalRow {
  const { heightA, heightB, difference } = comparison.pairs;
  const short = heightA === heightB ? metres(heightA) : `${plainText(heightA)}; ${metres(heightB)}`;
  const name = narrow
    ? `${SHORT_NAMES[comparison.basis]}, ${short}`
    : `${basisName(comparison.basis)}, ${heightsText(comparison).replace(', ', '; ')}`;
  return { name, estimate: 100 * difference.estimate, lower: 100 * difference.lower, upper: 100 * difference.upper };
}

const SHORT_NAMES: Readonly<Record<ComparisonBasis, string>> = {
  planned: 'Planned',
  'planned of A': "A's planned",
  aims: 'Aims',
};

const FINDINGS: Readonly<Record<CompareVerdict, string>> = {
  'B safer': 'B is the safer one',
  'A safer': 'A is the safer one',
  'no difference that matters': 'there is no difference that matters',
  'not settled': 'it is not settled',
};

function finding(made: readonly DesignComparison[]): string {
  const words = made.map(({ basis, pairs }, index) => {
    const where = basisName(basis);
    const found = pairs.identical ? 'every pair ended alike' : FINDINGS[pairs.verdict];
    return `${index === 0 ? where : where.replace(/^At/, 'at')} ${found}`;
  });
  return `${words.join(', ')}.`;
}

function comparisonsTable(made: readonly DesignComparison[]): Table {
  const row = (name: string, text: (comparison: DesignComparison) => string) => [name, ...made.map(text)];
  return table(
    'Each comparison by itself. The exact McNemar test at 5 % decides; the interval of the difference (Tango, 95 %) stands beside it and decides only where nothing that matters is left.',
    ['', ...made.map(({ basis }) => basisName(basis))],
    [
      row('Heights', heightsText),
      row('Pairs of flights', ({ pairs }) => countText(pairs.riskA.flights)),
      row('Risk of A (90 % interval)', ({ pairs }) => proportionText(pairs.riskA)),
      row('Risk of B (90 % interval)', ({ pairs }) => proportionText(pairs.riskB)),
      row('Not soft with A alone', ({ pairs }) => countText(pairs.pairs.onlyA)),
      row('Not soft with B alone', ({ pairs }) => countText(pairs.pairs.onlyB)),
      row('Not soft with both', ({ pairs }) => countText(pairs.pairs.both)),
      row('B saves, flights in 100 (95 % interval)', ({ pairs }) => `${estimateText(pairs)} (${intervalText(pairs)})`),
      row('Chance of such a split if equally safe', ({ pairs }) => pValueText(pairs.pValue)),
      row('Pairs that would settle it', ({ pairs }) =>
        pairs.flightsToSettle === null ? 'settled' : `about ${countText(pairs.flightsToSettle)}`,
      ),
      row('Verdict', ({ pairs }) => pairs.verdict),
    ],
  );
}

/** The interval of B's saving, in flights in 100: "10.1 to 13.0". */
function intervalText({ difference }: PairedComparison): string {
  const { lower, upper } = differenceParts(difference);
  return `${withMinus(lower)} to ${withMinus(upper)}`;
}

function estimateText({ difference }: PairedComparison): string {
  return withMinus(differenceParts(difference).estimate);
}

function searchNote({ a, b }: CompareResult): string | null {
  const search = a.heights ?? b.heights;
  if (search === null) return null;
  return `The aims were sought in steps of ${plainText(2 * search.step)}\u00a0m or more with ${countText(search.flights)} flights a height: each is the height of about the least risk with room on both sides, and where its fresh flights do not show it to keep every limit, the lowest height that is shown to stands for it. The flights compared there are fresh ones of the set \u201cconfirm\u201d, not those that picked the heights.`;
}
