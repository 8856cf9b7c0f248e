/** Section 6: what goes wrong, how often. */
import type { AssessResult } from '../../sim/result/result.js';
import { percentParts, proportionText } from '../../sim/statistics/words.js';
import { causesChart } from '../charts/causes.js';
import type { Draw } from '../charts/draw.js';
import { type Figure, figure, type Table, table } from '../table.js';
import { meaningOfCause } from '../words/causes.js';
import { countText, metres } from '../words/numbers.js';
import { capitalised } from '../words/sentences.js';

export interface CausesSection {
  readonly figure: Figure | null;
  readonly nothing: string | null;
  readonly causes: Table | null;
}

export async function causesSection(result: AssessResult, draw: Draw): Promise<CausesSection> {
  const rows = result.causes;
  if (rows.length === 0) {
    const { flights } = result.risk;
    return {
      figure: null,
      nothing: `None of ${countText(flights)} flights hit the ground, so there is no cause to show.`,
      causes: null,
    };
  }
  const failures = rows.reduce((sum, row) => sum + row.risk.count, 0);
  const caption = causesFinding(result, failures);
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
      'Each failed flight counts once, for one cause; the interval shows how far the count can be trusted, the word is for its upper end.',
      ['Cause', '#Flights', '#Of all flights (90 % interval)', '#Of 100 failures', 'Word', 'What it means'],
      rows.map(({ cause, risk, word }) => [
        capitalised(cause),
        countText(risk.count),
        proportionText(risk),
        String(Math.round((100 * risk.count) / failures)),
        word,
        meaningOfCause(cause),
      ]),
    ),
  };
}

function causesFinding({ causes, plannedHeight }: AssessResult, failures: number): string {
  const [first, second] = causes;
  const at = metres(plannedHeight);
  const share = (row: typeof first) => `${percentParts(row.risk).estimate}\u00a0% of all flights`;
  if (second === undefined) {
    return failures === 1
      ? `At ${at} one failure was seen, from ${first.cause}: one says little.`
      : `At ${at} all ${countText(failures)} failures come from ${first.cause} (${share(first)}).`;
  }
  const few = failures < 30 ? ` Only ${countText(failures)} failures were seen: the order of the causes is loose.` : '';
  const most = Math.round((100 * first.risk.count) / failures);
  return `At ${at} most failures come from ${first.cause} (${share(first)}, ${most} of 100 failures), then ${second.cause} (${share(second)}).${few}`;
}
