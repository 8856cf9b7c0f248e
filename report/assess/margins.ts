/** Section 10 shows the margins of battery and time, and the hand calculation. */
import type { AssessResult } from '../../sim/assess/result.js';
import { fixedValue } from '../../sim/scenario/lookup.js';
import type { Spread } from '../../sim/statistics/quantile.js';
import { proportionText } from '../../sim/statistics/words.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { type CellLike, cell, numericCell, type Table, table } from '../kit/table.js';
import {
  countText,
  numberText,
  plainText,
  printedFormula,
  prose,
  quantileAt,
  spreadText,
  spreadTexts,
  withUnit,
} from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { quantileStripChart, type StripData } from './margins-chart.js';

export interface MarginsSection {
  readonly figure: Figure | null;
  readonly hand: Table;
  readonly guesses: Table | null;
  readonly withoutSpread: string | null;
}

interface Margin {
  readonly name: string;
  readonly unit: string;
  readonly strip: StripData;
}

export async function marginsSection(result: AssessResult, draw: Draw): Promise<MarginsSection> {
  const cutOff = fixedValue(result.scenario, 'battery.cut_off_voltage');
  const margin = (name: string, unit: string, spread: Spread, scale = 1, limit: StripData['limit'] = null): Margin => ({
    name,
    unit,
    strip: { spread, scale, limit, title: `${name}, ${unit}` },
  });
  const margins = [
    margin(
      'Lowest pack voltage under load',
      'V',
      result.lowestVoltage,
      1,
      cutOff === null ? null : { value: cutOff, word: `cut-off ${plainText(cutOff)} V` },
    ),
    margin('Charge left at touchdown', '%', result.energyLeft, 100),
    margin('Time from rotors running to upright', 's', result.uprightDelay),
    margin('Height used to stop', 'm', result.stoppingHeight),
    margin('Height left when stopped', 'm', result.arrestHeight, 1, { value: 0, word: 'ground' }),
  ].filter(({ strip }) => strip.spread.flights > 0);
  return {
    figure: margins.length === 0 ? null : await marginFigure(result, margins, draw),
    hand: handTable(result),
    guesses: guessTable(result),
    withoutSpread:
      result.hand.withoutSpread.length === 0
        ? null
        : `Guesses written as one fixed number, whose effect cannot be ranked until they get a spread: ${result.hand.withoutSpread.join(', ')}.`,
  };
}

async function marginFigure(result: AssessResult, margins: readonly Margin[], draw: Draw): Promise<Figure> {
  const caption = marginFinding(result);
  return figure(draw, {
    id: 'margins',
    caption,
    charts: margins.map(
      ({ strip }) =>
        (frame) =>
          quantileStripChart(strip, frame),
    ),
    labels: margins.map(({ name, unit, strip }) => `${name}: ${spreadText(strip.spread, unit, strip.scale)}.`),
    legend: [{ symbol: 'strip', text: 'middle flight; box: half of the flights; line: 9 of 10; dots: 98 of 100' }],
    table: table(
      'Margins at the planned height, each over the flights that have it: the median flight, and what 9 of 10 lie between.',
      ['Quantity', '#Flights', '#5 %', '#Median', '#95 %', '#1 %', '#99 %'],
      margins.map(marginRow),
    ),
  });
}

function marginFinding(result: AssessResult): string {
  const voltage = spreadTexts(result.lowestVoltage, 'V');
  const charge = spreadTexts(result.energyLeft, '%', 100);
  const pack =
    voltage === null || charge === null
      ? ''
      : `; in the median flight the pack sags to ${withUnit(voltage.median, 'V')} and ${withUnit(charge.median, '%')} of its charge is left at touchdown`;
  return `The fall is stopped in ${proportionText(result.arrested)} of flights${pack}.`;
}

function marginRow({ name, unit, strip }: Margin): CellLike[] {
  const texts = spreadTexts(strip.spread, unit, strip.scale);
  const end = (p: number) => numberText(strip.scale * (quantileAt(strip.spread, p) ?? 0), 2);
  return [
    `${name}, ${unit}`,
    countText(strip.spread.flights),
    texts?.low ?? 'none',
    texts?.median ?? 'none',
    texts?.high ?? 'none',
    end(0.01),
    end(0.99),
  ];
}

function handTable(result: AssessResult): Table {
  const figureText = (value: number | null, unit: string) =>
    value === null ? numericCell('\u2013') : numericCell(withUnit(numberText(value), unit));
  return table(
    'What a pencil gives, beside the simulated flight with every input at its middle value and no gusts; a large gap wants an explanation.',
    ['Quantity', '#By hand', '#Simulated', 'Formula', 'Remark'],
    result.hand.rows.map(({ name, unit, byHand, simulated, formula, why }) => [
      capitalised(name),
      figureText(byHand, unit),
      figureText(simulated, unit),
      printedFormula(formula),
      prose(why),
    ]),
  );
}

function guessTable(result: AssessResult): Table | null {
  const height = (value: number | null) =>
    numericCell(value === null ? 'cannot stop' : withUnit(numberText(value), 'm'));
  return result.hand.guesses.length === 0
    ? null
    : table(
        'How far each unmeasured input moves the lowest throttle-up height by hand, from its 5 % to its 95 % value, all others at their medians: the first is worth measuring first.',
        ['Input', 'Source', '#Height at its 5 %', '#Height at its 95 %', '#Thrust to weight, 5 % to 95 %'],
        result.hand.guesses.map((guess) => [
          cell(guess.path, 'path'),
          guess.source,
          height(guess.heightAtLow),
          height(guess.heightAtHigh),
          numericCell(rangeText(numberText(guess.thrustToWeightAtLow), numberText(guess.thrustToWeightAtHigh))),
        ]),
      );
}

function rangeText(from: string, to: string): string {
  return from === to ? from : `${from} to ${to}`;
}
