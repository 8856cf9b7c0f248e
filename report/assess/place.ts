/** Section 9 tells where the craft comes down, how hard, and how far to keep away. */
import type { AssessResult } from '../../sim/assess/result.js';
import { fixedValue, keepOutCircles } from '../../sim/scenario/lookup.js';
import { boundedText, proportionText } from '../../sim/statistics/words.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { type CellLike, numericCell, type Table, table } from '../kit/table.js';
import {
  countText,
  fixedText,
  flightsText,
  metres,
  numberText,
  quantileAt,
  spreadText,
  withUnit,
} from '../kit/words/numbers.js';
import { type FootprintData, footprintChart } from './place-chart.js';

export interface PlaceSection {
  readonly figure: Figure;
  readonly chances: Table | null;
  readonly energy: Table | null;
  readonly energyNote: string;
}

/** Distances are printed in steps of ten metres, upwards: nobody paces out less, and shorter would be the wrong side. */
function paced(distance: number): string {
  return metres(Math.ceil(distance / 10) * 10);
}

export async function placeSection(result: AssessResult, draw: Draw): Promise<PlaceSection> {
  const { footprint } = result;
  const data: FootprintData = {
    footprint,
    recoveryRadius: fixedValue(result.scenario, 'criteria.recovery_circle.radius'),
    keepOut: keepOutCircles(result.scenario),
    keepAway: footprint.keepAway?.distance ?? null,
  };
  const caption = placeFinding(result);
  return {
    figure: await figure(draw, {
      id: 'footprint',
      caption,
      charts: [(frame) => footprintChart(data, frame)],
      labels: [`Map of touchdown points around the planned landing point. ${caption}`],
      legend: [
        { symbol: 'icon-crash', text: 'hard landings and crashes, larger where there are more' },
        { symbol: 'swatch-soft', text: 'soft landings, stronger where there are more' },
        { symbol: 'icon-target', text: 'planned landing point' },
        ...(data.recoveryRadius === null
          ? []
          : [{ symbol: 'line-circle', text: `recovery circle, ${metres(data.recoveryRadius)}` }]),
        ...(data.keepAway === null ? [] : [{ symbol: 'line-dots', text: '99 of 100 failed flights fall within' }]),
        ...(data.keepOut.length === 0 ? [] : [{ symbol: 'line-dashes', text: 'keep-out circles' }]),
      ],
      table: distanceTable(result),
    }),
    chances: chanceTable(result),
    energy: energyTable(result),
    energyNote: energyNote(result),
  };
}

function placeFinding(result: AssessResult): string {
  const { keepAway, beyond } = result.footprint;
  const gone = beyond.soft + beyond.notSoft;
  const outOfSight =
    gone === 0
      ? ''
      : ` ${flightsText(gone)} ${gone === 1 ? 'comes' : 'come'} down outside the map, ${beyond.notSoft === 0 ? 'softly' : `${countText(beyond.notSoft)} of them not softly`}.`;
  if (keepAway === null) return `No flight failed, so there is no area of failures to show.${outOfSight}`;
  if (keepAway.upper === null) {
    const seen = countText(result.footprint.distanceNotSoft.flights);
    return `Failed flights are the hazard. Of the ${seen} seen, 99 of 100 come down within ${paced(keepAway.distance)} of the planned landing point; they are too few to say how far the next ones may go.${outOfSight}`;
  }
  return `Failed flights are the hazard: 99 of 100 of them come down within ${paced(keepAway.distance)} of the planned landing point (up to ${paced(keepAway.upper)} within the interval), soft landings mostly nearer.${outOfSight}`;
}

function distanceTable(result: AssessResult): Table {
  const { distance, distanceNotSoft } = result.footprint;
  const row = (name: string, spread: typeof distance): CellLike[] => [
    name,
    countText(spread.flights),
    ...[0.5, 0.95, 0.99].map((p) => {
      const value = quantileAt(spread, p);
      return numericCell(value === null ? 'none' : fixedText(value, 0));
    }),
  ];
  return table(
    'Distance from the planned landing point, in metres: half, 95 of 100 and 99 of 100 flights stay within it.',
    ['Flights', '#Number', '#Half', '#95 of 100', '#99 of 100'],
    [row('All', distance), row('Not soft', distanceNotSoft)],
  );
}

function chanceTable(result: AssessResult): Table | null {
  const { outsideCircle, keepOut } = result.footprint;
  const rows = [
    ...(outsideCircle === null
      ? []
      : [['Outside the recovery circle', proportionText(outsideCircle), countText(outsideCircle.count), '', '']]),
    ...keepOut.map(({ name, inside, soft, notSoft }) => [
      `Inside the keep-out circle \u201c${name}\u201d`,
      boundedText(inside),
      countText(inside.count),
      countText(soft),
      countText(notSoft),
    ]),
  ];
  return rows.length === 0
    ? null
    : table(
        `How often it comes down where it should not, throttling up at ${metres(result.plannedHeight)}.`,
        ['Where', '#Share of flights (90 % interval)', '#Flights', '#Softly', '#Not softly'],
        rows,
      );
}

/** J in a foot-pound: a pound of 0.45359237 kg, lifted by 0.3048 m. */
const FOOT_POUND = 0.3048 * 0.45359237 * 9.80665;

/**
 * Published figures to hold the energy against: information, never a licence. The first two are an injury no worse than a
 * rigid object with that energy would cause, the third what an impact at terminal speed passes on to a head.
 */
const YARDSTICKS = [
  { name: '14 CFR 107.120(a)(1), category 2: a rigid object with 11 ft lbf', joules: 11 * FOOT_POUND },
  { name: '14 CFR 107.130(a)(1), category 3: a rigid object with 25 ft lbf', joules: 25 * FOOT_POUND },
  { name: 'Regulation (EU) 2019/945, Annex, Part 2(1), class C1: passed on to a head', joules: 80 },
] as const;

function energyTable(result: AssessResult): Table | null {
  const energy = result.energyNotSoft;
  const values = [0.05, 0.5, 0.95].map((p) => quantileAt(energy, p));
  if (values.some((value) => value === null)) return null;
  const found = [
    '5 in 100 failed flights have less than',
    'Half of the failed flights have less than',
    '95 in 100 failed flights have less than',
  ];
  return table(
    'Kinetic energy at touchdown of the flights that do not land softly, beside published yardsticks.',
    ['What', '#Joules'],
    [
      ...found.map((name, index) => [name, numberText(values[index] ?? 0, 2)]),
      ...YARDSTICKS.map(({ name, joules }) => [name, fixedText(joules, 1)]),
    ],
  );
}

function energyNote(result: AssessResult): string {
  if (result.energyNotSoft.flights === 0) return 'No flight failed, so there is no energy of failures to state.';
  return `Flights that do not land softly hit with ${spreadText(result.energyNotSoft, 'J')}. The yardsticks come from rules for other craft and other uses; they are printed as a sense of scale and license nothing. A rotor that still turns and a burning pack are not in this figure. Total speed is ${withUnit(numberText(quantileAt(result.touchdownSpeedNotSoft, 0.5) ?? 0), 'm/s')} in the median failed flight.`;
}
