/** Section 5: what the inputs that nobody has measured could make of the risk. */
import type { WorldsResult } from '../../sim/result/decisions.js';
import { proportionText } from '../../sim/statistics/words.js';
import type { Draw } from '../charts/draw.js';
import { worldBins, worldsChart } from '../charts/worlds.js';
import type { ReportedResult } from '../decisions.js';
import { type Figure, figure, table } from '../table.js';
import { countText, metres, percentLimit, plainText, unbroken } from '../words/numbers.js';

export interface WorldsSection {
  readonly figure: Figure;
  readonly note: string;
  readonly pessimistic: string | null;
}

/** Ends of what is not measured, in percent: one digit, since a hundred worlds bear no more. */
function oneDigit(share: number): string {
  return plainText(Number((100 * share).toPrecision(1)));
}

export async function worldsSection(result: ReportedResult, draw: Draw): Promise<WorldsSection | null> {
  const { worlds } = result;
  if (worlds === undefined || worlds === null) return null;
  const caption = worldsFinding(worlds, result);
  return {
    figure: await figure(draw, {
      id: 'worlds',
      caption,
      charts: [(frame) => worldsChart(worlds, frame)],
      labels: [`Failures in each of ${worlds.worlds} plausible worlds. ${caption}`],
      legend:
        worlds.lower === null
          ? []
          : [{ symbol: 'swatch-tint', text: '9 of 10 worlds, without the chance of only so few flights' }],
      table: table(
        'In how many plausible worlds so many flights hit the ground.',
        ['#Flights that hit', '#Worlds'],
        worldBins(worlds)
          .filter((bin) => bin.worlds > 0)
          .map((bin) => [String(bin.failures), String(bin.worlds)]),
      ),
    }),
    note: `A world is one draw of everything that is fixed but not measured; ${countText(worlds.worlds)} of them flew ${countText(worlds.flightsEach)} fresh flights each. The bars scatter more than the risk itself because so few flights are flown in each; the tinted range has that taken out.`,
    pessimistic: pessimisticSentence(result),
  };
}

function worldsFinding(worlds: WorldsResult, result: ReportedResult): string {
  const at = metres(worlds.height);
  if (worlds.lower === null || worlds.upper === null) {
    return `At ${at} the plausible worlds do not differ by more than chance would make them: what is not measured makes no difference that ${countText(worlds.worlds * worlds.flightsEach)} flights can see.`;
  }
  const sampling = worlds.height === result.plannedHeight ? `${proportionText(result.risk)} from sampling; ` : '';
  const share =
    worlds.shareWithin === null
      ? ''
      : ` In about ${Math.round(100 * worlds.shareWithin.estimate)} of 100 plausible worlds this height is within the acceptable ${percentLimit(worlds.limit)} (${Math.floor(100 * worlds.shareWithin.lower)} to ${Math.ceil(100 * worlds.shareWithin.upper)}).`;
  return `At ${at}: ${sampling}what nobody has measured could make it ${oneDigit(worlds.lower)} to ${oneDigit(worlds.upper)} %.${share}`;
}

function pessimisticSentence({ pessimistic }: ReportedResult): string | null {
  if (pessimistic === undefined || pessimistic === null) return null;
  const left =
    pessimistic.left.length === 0
      ? ''
      : ` Left as drawn, since their worse side is not known: ${pessimistic.left.join(', ')}.`;
  const verdict = {
    within: 'still within the acceptable',
    above: 'above the acceptable',
    'not shown': 'not shown to be within the acceptable',
  }[pessimistic.verdict];
  return unbroken(
    `With ${countText(pessimistic.held.length)} guesses at their pessimistic quarter at once the risk is ${proportionText(pessimistic.risk)}, ${verdict} ${percentLimit(pessimistic.limit)}.${left}`,
  );
}
