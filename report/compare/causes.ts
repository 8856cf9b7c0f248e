/** Pairs that end differently are counted by cause: what B saves and what it breaks. */
import type { CompareResult, DesignComparison } from '../../sim/compare/result.js';
import { chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { namesAxis } from '../kit/interval-chart.js';
import { colour } from '../kit/palette.js';
import { type Table, table } from '../kit/table.js';
import { meaningOfCause } from '../kit/words/names.js';
import { countText, fixedText } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { basisName, heightsText } from './heights-compared.js';

export interface CausesSection {
  readonly nothing: string | null;
  readonly figure: Figure | null;
  readonly tables: readonly Table[];
}

interface CauseCount {
  readonly cause: string;
  readonly saved: number;
  readonly lost: number;
}

interface CauseBar {
  readonly cause: string;
  /** In flights in 100. */
  readonly saved: number;
  readonly lost: number;
}

export async function causesSection({ comparisons }: CompareResult, draw: Draw): Promise<CausesSection> {
  const [first] = comparisons;
  const made = comparisons.filter((one): one is DesignComparison => one.status === 'compared');
  const rows = causeCounts(first);
  const tables = made.filter((one) => causeCounts(one).length > 0).map(causesTable);
  if (rows.length === 0)
    return {
      nothing: 'Every pair at the planned heights ended alike: nothing is saved and nothing broken.',
      figure: null,
      tables,
    };
  const { flights } = first.pairs.riskA;
  const bars: readonly CauseBar[] = rows.map(({ cause, saved, lost }) => ({
    cause,
    saved: (100 * saved) / flights,
    lost: (100 * lost) / flights,
  }));
  const caption = finding(rows);
  return {
    nothing: null,
    figure: await figure(draw, {
      id: 'pairs',
      caption,
      charts: [(frame) => causesChart(bars, frame)],
      labels: [`Flights in 100 that B saves and loses, by cause. ${caption}`],
      legend: [
        { symbol: 'swatch-soft', text: 'saved: A hits, B lands softly; by the cause with A' },
        { symbol: 'swatch-crash', text: 'lost: A lands softly, B hits; by the cause with B' },
      ],
      table: null,
    }),
    tables,
  };
}

/** Bars to the right and to the left of one line: what B saves and what it loses. */
function causesChart(bars: readonly CauseBar[], frame: Frame): ChartSpec {
  const most = Math.max(...bars.flatMap(({ saved, lost }) => [saved, lost]));
  const y = { field: 'cause', type: 'nominal', sort: bars.map(({ cause }) => cause) } as const;
  const x = { type: 'quantitative', scale: { domain: [-1.05 * most, 1.05 * most], nice: false } } as const;
  const axis = {
    title: frame.narrow ? 'B loses | B saves, in 100' : 'Flights in 100 that B loses (left) and saves (right)',
    grid: true,
    tickCount: frame.narrow ? 5 : 9,
    labelExpr: "replace(format(abs(datum.value), '~r'), '-', '')",
  };
  const bar = (field: 'saved' | 'lost', fill: string, stroke: string) => ({
    mark: { type: 'bar', height: 14, fill, stroke, strokeWidth: 0.8 },
    encoding: {
      y: { ...y, ...(field === 'saved' ? { axis: namesAxis(frame, [130, 220], [118, 150]) } : {}) },
      x: { ...x, field, axis },
    },
  });
  return {
    ...chartBase(frame, 56 + 30 * bars.length),
    data: { values: bars.map(({ cause, saved, lost }) => ({ cause, saved, lost: -lost })) },
    layer: [
      bar('saved', colour('soft'), colour('soft-edge')),
      bar('lost', colour('crash'), colour('crash-edge')),
      {
        data: { values: [{ none: 0 }] },
        mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1 },
        encoding: { x: { ...x, field: 'none' } },
      },
    ],
  };
}

/** The causes of a comparison, from the cause that changes most flights down. */
function causeCounts({ pairs }: DesignComparison): readonly CauseCount[] {
  const names = new Set([...pairs.saves, ...pairs.breaks].map(({ cause }) => cause));
  const of = (list: typeof pairs.saves, name: string) => list.find(({ cause }) => cause === name)?.flights ?? 0;
  return [...names]
    .map((cause) => ({ cause, saved: of(pairs.saves, cause), lost: of(pairs.breaks, cause) }))
    .sort((one, other) => other.saved + other.lost - one.saved - one.lost);
}

function finding(rows: readonly CauseCount[]): string {
  const total = (which: 'saved' | 'lost') => rows.reduce((sum, row) => sum + row[which], 0);
  const most = (which: 'saved' | 'lost') => rows.reduce((best, row) => (row[which] > best[which] ? row : best));
  const part = (which: 'saved' | 'lost', verb: string) => {
    const all = total(which);
    if (all === 0) return `B ${verb} none`;
    const first = most(which);
    return `B ${verb} ${countText(all)}, ${first[which] === all ? 'all' : `${countText(first[which])} of them`} from \u201c${first.cause}\u201d`;
  };
  return `Of the flights flown at the planned heights ${part('saved', 'saves')}, and ${part('lost', 'loses')}.`;
}

function causesTable(comparison: DesignComparison): Table {
  const { flights } = comparison.pairs.riskA;
  return table(
    `${basisName(comparison.basis)} (${heightsText(comparison)}): pairs that end differently, by the cause of the flight that does not land softly, of ${countText(flights)} pairs.`,
    ['Cause', '#B saves', '#B loses', '#Saved in 100, net', 'What it means'],
    causeCounts(comparison).map(({ cause, saved, lost }) => [
      capitalised(cause),
      countText(saved),
      countText(lost),
      (saved < lost ? '\u2212' : '') + inHundred(Math.abs(saved - lost), flights),
      meaningOfCause(cause),
    ]),
  );
}

/** Flights of `whole` in flights in 100, two digits. */
function inHundred(flights: number, whole: number): string {
  const share = whole === 0 ? 0 : (100 * flights) / whole;
  return share === 0 ? '0' : fixedText(share, Math.max(0, Math.min(3, 1 - Math.floor(Math.log10(share)))));
}
