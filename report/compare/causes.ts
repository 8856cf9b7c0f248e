/** Which pairs end differently, by cause: what B saves and what it breaks. */
import type { CompareResult, DesignComparison } from '../../sim/compare/result.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure, type Table, table } from '../kit/table.js';
import { meaningOfCause } from '../kit/words/causes.js';
import { countText } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { type CauseBar, compareCausesChart } from './causes-chart.js';
import { basisName, heightsText, inHundred } from './words.js';

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
      charts: [(frame) => compareCausesChart(bars, frame)],
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

/** The causes of one comparison, those that change most first. */
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
    `${basisName(comparison.basis)} (${heightsText(comparison)}): pairs that end differently, by the cause of the flight that hits the ground, of ${countText(flights)} pairs.`,
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
