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
  const [first, second] = rows;
  const most = Math.round((100 * first.risk.count) / failures);
  const few = failures < 30 ? ` Only ${countText(failures)} failures were seen: the order of the causes is loose.` : '';
  const next = second === undefined ? '' : `, then ${second.cause} (${percentParts(second.risk).estimate}\u00a0%)`;
  const caption = `At ${metres(result.plannedHeight)} most failures come from ${first.cause} (${percentParts(first.risk).estimate}\u00a0% of all flights, ${most} of 100 failures)${next}.${few}`;
  return {
    figure: await figure(draw, {
      id: 'causes',
      caption: rows.length === 1 ? caption.replace('most failures come', 'all failures come') : caption,
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
