/** Section 5 tells what the inputs that nobody has measured could make of the risk. */
import type { WorldsResult } from '../../sim/assess/decisions.js';
import type { AssessResult } from '../../sim/assess/result.js';
import type { Proportion } from '../../sim/statistics/proportion.js';
import { percentEnd, proportionText } from '../../sim/statistics/words.js';
import { aboveAxis, chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { colour } from '../kit/palette.js';
import { table } from '../kit/table.js';
import { inputName } from '../kit/words/inputs.js';
import { countText, metres, percentLimit, prose, unbroken } from '../kit/words/numbers.js';

export interface WorldsSection {
  readonly figure: Figure;
  readonly note: string;
  readonly pessimistic: string | null;
  /** Failures that no world changes, because a guess was written as one number. */
  readonly exact: string | null;
}

export async function worldsSection(result: AssessResult, draw: Draw): Promise<WorldsSection | null> {
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
          : [{ symbol: 'swatch-tint', text: 'where 9 of 10 worlds lie, with the chance of so few flights taken out' }],
      table: table(
        'In how many plausible worlds so many flights do not land softly.',
        ['#Flights not soft', '#Worlds'],
        worldBins(worlds)
          .filter((bin) => bin.worlds > 0)
          .map((bin) => [String(bin.failures), String(bin.worlds)]),
      ),
    }),
    note: `A world is one draw of everything that is fixed but not measured; ${countText(worlds.worlds)} of them flew ${countText(worlds.flightsEach)} fresh flights each. The bars scatter more than the risk itself because so few flights are flown in each; the tinted range has that taken out.`,
    pessimistic: pessimisticSentence(result),
    exact: exactSentence(result),
  };
}

/** Room over the highest bar for what is written beside the limit. */
const HEADROOM = 1.22;

/** Number of worlds by their number of failures. */
function worldBins(worlds: WorldsResult): readonly { readonly failures: number; readonly worlds: number }[] {
  const most = Math.max(...worlds.counts, Math.ceil(worlds.limit * worlds.flightsEach) + 1);
  return Array.from({ length: most + 1 }, (_, failures) => ({
    failures,
    worlds: worlds.counts.filter((count) => count === failures).length,
  }));
}

/** Bars count the failures in each plausible world, with the limit and the spread that is left when the chance of few flights is taken out. */
function worldsChart(worlds: WorldsResult, frame: Frame): ChartSpec {
  const bins = worldBins(worlds);
  const each = worlds.flightsEach;
  const x = {
    type: 'quantitative',
    scale: { domain: [-0.6, bins.length - 0.4], nice: false },
    axis: {
      title: `Flights that do not land softly, of ${each} in a world`,
      tickMinStep: 1,
      tickCount: frame.narrow ? 6 : 12,
      format: 'd',
    },
  } as const;
  const y = {
    field: 'count',
    type: 'quantitative',
    scale: { domain: [0, HEADROOM * Math.max(1, ...bins.map((bin) => bin.worlds))], nice: false },
    axis: { ...aboveAxis('Worlds'), tickMinStep: 1, tickCount: 4 },
  } as const;
  const spread =
    worlds.lower === null || worlds.upper === null ? [] : [{ low: each * worlds.lower, high: each * worlds.upper }];
  return {
    ...chartBase(frame, 240),
    layer: [
      {
        data: { values: spread },
        mark: { type: 'rect', fill: colour('accent-tint') },
        encoding: { x: { ...x, field: 'low' }, x2: { field: 'high' } },
      },
      {
        data: {
          values: bins
            .filter((bin) => bin.worlds > 0)
            .map(({ failures, worlds: count }) => ({ from: failures - 0.4, to: failures + 0.4, count })),
        },
        mark: { type: 'bar', fill: colour('line'), stroke: colour('edge'), strokeWidth: 0.8 },
        encoding: {
          x: { ...x, field: 'from', bin: 'binned' },
          x2: { field: 'to' },
          y,
        },
      },
      {
        data: { values: [{ limit: each * worlds.limit, text: `acceptable: ${percentLimit(worlds.limit)}` }] },
        layer: [
          {
            mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1.4 },
            encoding: { x: { ...x, field: 'limit' } },
          },
          {
            mark: { type: 'text', align: 'left', baseline: 'top', dx: 5, fontWeight: 600 },
            encoding: { x: { ...x, field: 'limit' }, y: { value: 0 }, text: { field: 'text' } },
          },
        ],
      },
    ],
  };
}

function worldsFinding(worlds: WorldsResult, result: AssessResult): string {
  const at = metres(worlds.height);
  if (worlds.lower === null || worlds.upper === null) {
    return `At ${at} the plausible worlds do not differ by more than chance would make them: what is not measured makes no difference that ${countText(worlds.worlds * worlds.flightsEach)} flights can see.`;
  }
  const plain = result.plannedHeight === worlds.height ? { risk: result.risk } : null;
  const sampling = plain ? `the risk is ${samplingText(plain.risk)}; ` : '';
  const share =
    worlds.shareWithin === null
      ? ''
      : ` In about ${Math.round(100 * worlds.shareWithin.estimate)} of 100 plausible worlds (${Math.floor(100 * worlds.shareWithin.lower)} to ${Math.ceil(100 * worlds.shareWithin.upper)}) this height is within the acceptable ${percentLimit(worlds.limit)}.`;
  return `At ${at} ${sampling}what nobody has measured could make ${plain ? 'it' : 'the risk'} ${percentEnd(worlds.lower)} to ${percentEnd(worlds.upper)} %.${share}`;
}

/** "4.1 % (3.5 to 4.8 % from sampling)". */
function samplingText(risk: Proportion): string {
  return proportionText(risk).replace(/\)$/, ' from sampling)');
}

/** The sentence of the warning, which no spread between worlds shows; null where no guess is taken as exact. */
function exactSentence({ warnings }: AssessResult): string | null {
  const found = warnings.find(({ code }) => code === 'exact guesses');
  return found === undefined ? null : prose(found.text);
}

/** Names of left-out guesses that a sentence can still hold. */
const MOST_NAMES = 6;

function pessimisticSentence({ pessimistic }: AssessResult): string | null {
  if (pessimistic === undefined || pessimistic === null) return null;
  const names = pessimistic.left.map(inputName);
  const more = names.length > MOST_NAMES ? ` and ${names.length - MOST_NAMES} more` : '';
  const left =
    names.length === 0
      ? ''
      : ` Left as drawn, since their worse side is not known: ${names.slice(0, MOST_NAMES).join(', ')}${more}.`;
  const verdict = {
    within: 'still within the acceptable',
    above: 'above the acceptable',
    'not shown': 'not shown to be within the acceptable',
  }[pessimistic.verdict];
  return unbroken(
    `With ${countText(pessimistic.held.length)} guesses at their pessimistic quarter at once, at ${metres(pessimistic.height)} the risk is ${proportionText(pessimistic.risk)}, ${verdict} ${percentLimit(pessimistic.limit)}.${left}`,
  );
}
