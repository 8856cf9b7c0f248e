/** Section 4 tells how fast the craft touches down. */
import type { AssessResult, HeightPoint } from '../../sim/assess/result.js';
import { fixedValue } from '../../sim/scenario/lookup.js';
import { exceedance } from '../../sim/statistics/exceedance.js';
import { flightsInHundred } from '../../sim/statistics/words.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { numericCell, type Table, table } from '../kit/table.js';
import { countText, flightsText, metres, numberText, plainText, spreadText, withUnit } from '../kit/words/numbers.js';
import { capitalised, verb } from '../kit/words/sentences.js';
import { exceedanceChart, failedSpeedChart, type SpeedData, softSpeedChart, speedAxisEnd } from './speeds-chart.js';

export interface SpeedPanel {
  readonly height: number;
  readonly shown: boolean;
  readonly figure: Figure;
}

export interface SpeedsSection {
  readonly panels: readonly SpeedPanel[];
  readonly limitNote: string | null;
  readonly cumulative: Figure;
}

export async function speedsSection(
  result: AssessResult,
  points: readonly HeightPoint[],
  shown: number,
  draw: Draw,
): Promise<SpeedsSection> {
  const limit = fixedValue(result.scenario, 'criteria.vertical_speed');
  const end = speedAxisEnd(
    points.map((point) => point.speeds),
    limit,
  );
  const panels: SpeedPanel[] = [];
  for (const point of points) {
    const data: SpeedData = { speeds: point.speeds, flights: point.risk.flights, limit, end };
    panels.push({ height: point.height, shown: point.height === shown, figure: await speedFigure(point, data, draw) });
  }
  const planned = points.find((point) => point.height === shown) ?? points[0];
  return {
    panels,
    limitNote:
      limit === null
        ? null
        : `The limit of ${withUnit(plainText(limit), 'm/s')} is on the vertical speed alone; the charts show the total speed, so that a soft landing in wind may lie beyond the line and a tilted one before it.`,
    cumulative: await cumulativeFigure(
      result,
      planned,
      { speeds: planned.speeds, flights: planned.risk.flights, limit, end },
      draw,
    ),
  };
}

async function speedFigure(point: HeightPoint, data: SpeedData, draw: Draw): Promise<Figure> {
  const finding = speedFinding(point);
  const failed = point.risk.count > 0;
  return figure(draw, {
    id: `speeds-${String(point.height).replace('.', '-')}`,
    caption: finding,
    charts: failed
      ? [(frame) => softSpeedChart(data, frame), (frame) => failedSpeedChart(data, frame)]
      : [(frame) => softSpeedChart(data, frame)],
    labels: [
      `Touchdown speeds of soft landings. ${finding}`,
      `Touchdown speeds of hard landings and crashes. ${finding}`,
    ],
    legend: [
      { symbol: 'swatch-soft', text: 'soft' },
      ...(failed
        ? [
            { symbol: 'swatch-hard', text: 'hard' },
            { symbol: 'swatch-crash', text: 'crash' },
          ]
        : []),
    ],
    table: speedTable(point),
  });
}

function speedFinding({ height, speeds, outcomes, risk }: HeightPoint): string {
  const failed = speeds.hard.map((count, bin) => count + speeds.crash[bin]);
  const beyond = speeds.beyond[1] + speeds.beyond[2];
  const soft = middleBin(speeds.soft, outcomes.soft - speeds.beyond[0]);
  const hard = middleBin(failed, outcomes.hard + outcomes.crash - beyond);
  const at = (bin: number) =>
    `${plainText(speeds.from + speeds.width * bin)} to ${withUnit(plainText(speeds.from + speeds.width * (bin + 1)), 'm/s')}`;
  const softly = soft === null ? 'no flight lands softly' : `the median soft landing touches down at ${at(soft)}`;
  const hardly = hard === null ? (risk.count === 0 ? 'none hits hard' : '') : `the median of the others at ${at(hard)}`;
  const gone = beyond === 0 ? '' : ` ${countText(beyond)} faster ones lie beyond the chart.`;
  return `With ${metres(height)}, of ${flightsText(risk.flights)}: ${[softly, hardly].filter((part) => part !== '').join('; ')}.${gone}`;
}

/** The bin that holds the middle flight. */
function middleBin(counts: readonly number[], total: number): number | null {
  let seen = 0;
  for (const [bin, count] of counts.entries()) {
    seen += count;
    if (count > 0 && 2 * seen >= total) return bin;
  }
  return null;
}

function speedTable({ height, speeds }: HeightPoint): Table {
  const rows = speeds.soft
    .map((soft, bin) => ({ bin, soft, hard: speeds.hard[bin], crash: speeds.crash[bin] }))
    .filter(({ soft, hard, crash }) => soft + hard + crash > 0)
    .map(({ bin, soft, hard, crash }) => [
      numericCell(
        `${plainText(speeds.from + speeds.width * bin)} to ${plainText(speeds.from + speeds.width * (bin + 1))}`,
      ),
      countText(soft),
      countText(hard),
      countText(crash),
    ]);
  const [soft, hard, crash] = speeds.beyond;
  const last = plainText(speeds.from + speeds.width * speeds.soft.length);
  const beyond =
    soft + hard + crash > 0 ? [[`${last} and more`, countText(soft), countText(hard), countText(crash)]] : [];
  return table(
    `Flights by touchdown speed and outcome with throttle-up at ${metres(height)}; a bin holds its lower end.`,
    ['#Touchdown speed, m/s', '#Soft', '#Hard', '#Crash'],
    [...rows, ...beyond],
  );
}

async function cumulativeFigure(
  result: AssessResult,
  point: HeightPoint,
  data: SpeedData,
  draw: Draw,
): Promise<Figure> {
  const failed = result.touchdownSpeedNotSoft.flights > 0;
  const fast = exceedance(data.speeds, data.flights).find(({ speed }) => speed === 10);
  const tail =
    fast === undefined
      ? ''
      : fast.share === 0
        ? ' None touches down at 10\u00a0m/s or faster.'
        : ` ${capitalised(flightsInHundred(fast.share / 100))} ${verb(flightsInHundred(fast.share / 100), 'touches', 'touch')} down at 10\u00a0m/s or faster.`;
  const those = failed
    ? `flights that do not land softly hit at ${spreadText(result.touchdownSpeedNotSoft, 'm/s')}.`
    : 'every flight lands softly.';
  const caption = `With ${metres(point.height)}, ${those}${tail}`;
  return figure(draw, {
    id: 'speed-cumulative',
    caption,
    charts: [(frame) => exceedanceChart(data, frame)],
    labels: [`Share of flights that touch down at a speed or faster, at the planned height. ${caption}`],
    table: table(
      'Flights in 100 that touch down at this total speed or faster, at the planned height.',
      ['#Speed, m/s', '#Flights in 100'],
      exceedance(data.speeds, data.flights)
        .filter(({ speed, share }) => share > 0 && Number.isInteger(speed) && (speed <= 10 || speed % 2 === 0))
        .map(({ speed, share }) => [plainText(speed), numberText(share, 2)]),
    ),
  });
}
