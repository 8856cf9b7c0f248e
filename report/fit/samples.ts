/** Samples stand beside the curve fitted to them, its quantiles beside the measured ones, and every family tried. */
import type { FamilyFit, SamplesFit } from '../../sim/fit/result.js';
import { aboveAxis, chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { colour } from '../kit/palette.js';
import { evenRows, numericCell, table } from '../kit/table.js';
import { numberText, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import type { EvidenceSection } from '../page/evidence.js';

/** Rows of a table on the page. */
const MOST_ROWS = 30;

export async function samplesSection(result: SamplesFit, draw: Draw): Promise<EvidenceSection> {
  const { data, count, mean, sd, chosen, why, values, quantiles } = result;
  const name = chosen === 'samples' ? 'the samples themselves' : `a ${chosen}`;
  const family = result.families.find((one) => one.family === chosen);
  const figures: Figure[] = [
    await figure(draw, {
      id: 'fit',
      caption: `${count} values of ${data.column}: mean ${valueText(mean, data.unit)}, standard deviation ${valueText(sd, data.unit)}.${chosen === 'samples' ? '' : ` The line is ${name}.`}`,
      charts: [(frame) => fitChart(result, frame)],
      labels: [`The ${count} values as marks and the density of ${name} as a line.`],
      table: null,
    }),
    await figure(draw, {
      id: 'quantiles',
      caption: `Where the fit is good, the points lie along the dashed line. ${capitalised(family?.verdict ?? '')}.`,
      charts: [(frame) => quantileChart(result, frame)],
      labels: [`Measured values against the quantiles of ${name}.`],
      table: table(
        'Measured values and the quantiles of the fit at the same ranks.',
        ['#Rank', '#Measured', '#By the fit'],
        evenRows(values.length, MOST_ROWS).map((i) => [
          String(i + 1),
          numberText(values[i], 4),
          numberText(quantiles[i], 4),
        ]),
      ),
    }),
  ];
  return {
    id: 'answer',
    title: capitalised(name),
    paragraphs: [why, emptyText(result)].filter((one) => one !== ''),
    figures,
  };
}

function emptyText({ empty }: SamplesFit): string {
  return empty === 0
    ? ''
    : `${empty} ${empty === 1 ? 'row has' : 'rows have'} no value in this column and ${empty === 1 ? 'is' : 'are'} left out.`;
}

function valueText(value: number, unit: string): string {
  return withUnit(numberText(value), unit);
}

export function familiesSection({ families }: SamplesFit): EvidenceSection {
  return {
    id: 'families',
    title: 'Every family tried',
    paragraphs: [
      'A2 is the Anderson-Darling distance, modified where the critical values for estimated parameters ask for it (Stephens 1974, 1977). The triangular has its mode at one of the samples, the least and the most left out. For it no table holds: its 5 % point and its p come from samples drawn from the fit and fitted again, so they are rough. A family that is not refused is not confirmed.',
    ],
    tables: [
      table(
        'Maximum likelihood for each family; the lower the Akaike figure, the likelier the samples for its number of parameters.',
        ['Family', 'Parameters, with 95 % range', '#A2', '5 % point', '#Akaike', 'Verdict'],
        families.map((one) => [
          one.family,
          parametersText(one),
          numericCell(one.fit === null ? '-' : (one.fit.modified ?? one.fit.statistic).toFixed(3)),
          criticalText(one),
          numericCell(one.akaike === null ? '-' : one.akaike.toFixed(1)),
          capitalised(one.verdict),
        ]),
      ),
    ],
  };
}

function parametersText({ parameters }: FamilyFit): string {
  if (parameters.length === 0) return '-';
  return parameters
    .map(
      ({ name, unit, estimate, low, high }) =>
        `${name} ${valueText(estimate, unit)} (${numberText(low)} to ${numberText(high)})`,
    )
    .join('; ');
}

function criticalText({ fit }: FamilyFit): string {
  if (fit === null) return '-';
  const five = String(fit.points.find(({ level }) => level === 0.05)?.value ?? '-');
  return fit.pValue === null ? five : `${five}, p ${fit.pValue.toFixed(2)}`;
}

/** From this many samples on, bars show them better than marks. */
const BARS_FROM = 30;

interface Bar {
  readonly from: number;
  readonly to: number;
  readonly density: number;
}

/** Bars of the width of Freedman and Diaconis, Probability Theory 57:453, 1981: 2 (Q3 - Q1) n^(-1/3). */
function barsOf(values: readonly number[]): readonly Bar[] {
  if (values.length < BARS_FROM) return [];
  const at = (p: number) => values[Math.round(p * (values.length - 1))];
  const [least, most] = [values[0], values[values.length - 1]];
  const wanted = (2 * (at(0.75) - at(0.25))) / Math.cbrt(values.length);
  const count = Math.min(40, Math.max(5, Math.ceil((most - least) / (wanted > 0 ? wanted : (most - least) / 10))));
  const width = (most - least) / count;
  const counts = new Array<number>(count).fill(0);
  for (const value of values) counts[Math.min(count - 1, Math.floor((value - least) / width))] += 1;
  return counts.map((one, i) => ({
    from: least + i * width,
    to: least + (i + 1) * width,
    density: one / (values.length * width),
  }));
}

function inUnit(name: string, unit: string): string {
  return unit === '' ? name : `${name}, ${unit}`;
}

function fitChart({ values, curve, data }: SamplesFit, frame: Frame): ChartSpec {
  const ends = [...values, ...curve.map(({ x }) => x)];
  const x = {
    type: 'quantitative',
    scale: { domain: [Math.min(...ends), Math.max(...ends)], nice: false, zero: false },
    axis: { title: inUnit(data.column, data.unit), tickCount: frame.narrow ? 5 : 10 },
  } as const;
  const y = { type: 'quantitative', axis: { ...aboveAxis('Probability density'), tickCount: 4 } } as const;
  return {
    ...chartBase(frame, 260),
    layer: [
      {
        data: { values: barsOf(values) },
        mark: { type: 'bar', fill: colour('line'), stroke: colour('edge'), strokeWidth: 0.6 },
        encoding: {
          x: { ...x, field: 'from', bin: 'binned' },
          x2: { field: 'to' },
          y: { ...y, field: 'density' },
        },
      },
      {
        data: { values: curve },
        mark: { type: 'line', stroke: colour('accent'), strokeWidth: 2 },
        encoding: { x: { ...x, field: 'x' }, y: { ...y, field: 'density' } },
      },
      {
        data: { values: values.map((value) => ({ value })) },
        mark: {
          type: 'tick',
          orient: 'vertical',
          size: 14,
          thickness: 1.2,
          stroke: colour('ink'),
          fill: colour('ink'),
          yOffset: -8,
        },
        encoding: { x: { ...x, field: 'value' }, y: { value: 'height' } },
      },
    ],
  };
}

/** A straight line through the corners is where every point of a perfect fit lies. */
function quantileChart({ values, quantiles, data }: SamplesFit, frame: Frame): ChartSpec {
  const points = values.map((value, i) => ({ fitted: quantiles[i], value }));
  const least = Math.min(...values, ...quantiles);
  const most = Math.max(...values, ...quantiles);
  const scale = { domain: [least, most], nice: false, zero: false };
  const x = {
    type: 'quantitative',
    scale,
    axis: { title: inUnit('By the fit', data.unit), tickCount: frame.narrow ? 5 : 10 },
  } as const;
  const y = {
    type: 'quantitative',
    scale,
    axis: { ...aboveAxis(inUnit('Measured', data.unit)), tickCount: 5 },
  } as const;
  return {
    ...chartBase(frame, frame.narrow ? 280 : 320),
    layer: [
      {
        data: { values: [least, most].map((value) => ({ value })) },
        mark: { type: 'line', stroke: colour('quiet'), strokeDash: [4, 3], strokeWidth: 1.2 },
        encoding: { x: { ...x, field: 'value' }, y: { ...y, field: 'value' } },
      },
      {
        data: { values: points },
        mark: { type: 'point', filled: true, size: 36, opacity: 1, fill: colour('accent') },
        encoding: { x: { ...x, field: 'fitted' }, y: { ...y, field: 'value' } },
      },
    ],
  };
}
