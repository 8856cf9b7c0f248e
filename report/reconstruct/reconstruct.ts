/** The page of a reconstructed flight says what it did, how its course went and how that was reckoned. */
import type { LogQuantity, ReconstructResult } from '../../sim/reconstruct/result.js';
import { type Draw, drawChart } from '../kit/draw.js';
import { numericCell, type Table, table } from '../kit/table.js';
import { changesSentence } from '../kit/words/changes.js';
import { quantityWords } from '../kit/words/names.js';
import { fixedText, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { type EvidencePage, type EvidenceSection, renderEvidence } from '../page/evidence.js';
import { courseSection } from './course.js';

export async function renderReconstruct(result: ReconstructResult, draw: Draw = drawChart): Promise<string> {
  return renderEvidence(await reconstructPage(result, draw));
}

export async function reconstructPage(result: ReconstructResult, draw: Draw): Promise<EvidencePage> {
  const program = `fallmargin ${result.versions.program}`;
  const over =
    result.scenario === null
      ? ''
      : ` · laid over ${result.scenario.title}, scenario ${result.scenario.hash.slice(0, 12)}, seed ${result.scenario.seed}`;
  return {
    kind: 'Flight log report',
    title: `What the log ${result.file} shows`,
    origin: `${result.rows} rows, ${fixedText(result.duration, 1)} s, ${result.channels}${over} · ${program}`,
    notice: result.invented
      ? 'Invented data. This log is made up for demonstration; no real flight is described.'
      : null,
    changed: changesSentence(result.scenario?.changed ?? []),
    program,
    sections: [
      {
        id: 'answer',
        title: 'What it did',
        paragraphs: [...sentences(result)],
        tables: [quantityTable(result), eventTable(result)],
      },
      await courseSection(result, draw),
      ...(result.warnings.length === 0
        ? []
        : [{ id: 'warnings', title: 'What the log cannot tell', paragraphs: [], advice: result.warnings }]),
      methodSection(result),
    ],
  };
}

function sentences({ quantities, scenario, zeroError }: ReconstructResult): readonly string[] {
  const outside = quantities.filter(
    ({ percentile }) => percentile !== null && (percentile[2] < 0.05 || percentile[1] > 0.95),
  );
  const agreement =
    scenario === null
      ? []
      : outside.length === 0
        ? [
            `Every quantity lies within what 9 of 10 simulated flights of ${scenario.title} do, the log's own errors counted: nothing here speaks against the scenario. One flight cannot confirm it.`,
          ]
        : [
            `Outside of what 9 of 10 simulated flights of ${scenario.title} do: ${outside.map(({ name }) => quantityWords(name)).join(', ')}. One in ten is expected outside by luck for each quantity; look at the inputs behind them.`,
          ];
  const zero =
    zeroError === null
      ? []
      : [`At rest the g-meter reads ${fixedText(1 + zeroError, 2)} g; the difference from 1 g is taken off.`];
  return [...agreement, ...zero];
}

function quantityTable({ quantities, scenario }: ReconstructResult): Table {
  return table(
    'Quantities of the flight with their 90 % range.',
    ['Quantity', '#Value', '#From', '#To', 'Note', ...(scenario === null ? [] : ['#Simulated flights under it'])],
    quantities.map((one) => [
      capitalised(quantityWords(one.name)),
      ...rangeCells(one),
      one.status === 'known' ? one.why : `not identifiable: ${one.why}`,
      ...(scenario === null ? [] : [numericCell(percentileText(one))]),
    ]),
  );
}

function rangeCells({ value, low, high, unit }: LogQuantity) {
  if (value === null || low === null || high === null) return [numericCell('-'), numericCell('-'), numericCell('-')];
  const width = (high - low) / 2;
  const decimals = Math.min(2, Math.max(0, width > 0 ? 1 - Math.floor(Math.log10(width)) : 1));
  const text = (one: number) => fixedText(one, decimals);
  return [
    numericCell(withUnit(text(value), unit === 'gee' ? 'g' : unit)),
    numericCell(text(low)),
    numericCell(text(high)),
  ];
}

function percentileText({ percentile }: LogQuantity): string {
  if (percentile === null) return '-';
  const [value, low, high] = percentile.map((one) => fixedText(100 * one, 0));
  return `${value} % (${low} to ${high})`;
}

function eventTable({ events }: ReconstructResult): Table {
  return table(
    'Events seen in the log, in seconds after ejection.',
    ['Event', '#Time, s', '#From', '#To', '#Height, m'],
    events.map(({ name, time, low, high, height }) => [
      capitalised(name),
      fixedText(time, 2),
      fixedText(low, 2),
      fixedText(high, 2),
      height === null ? '-' : fixedText(height, 0),
    ]),
  );
}

function methodSection({ channels, rounding, gaps }: ReconstructResult): EvidenceSection {
  const parts = [
    rounding.reading === null ? '' : `The g-readings come in steps of ${stepText(rounding.reading)} g.`,
    rounding.height === null ? '' : `The heights come in steps of ${stepText(rounding.height)} m.`,
    gaps.length === 0 ? '' : `${gaps.length} ${gaps.length === 1 ? 'stretch' : 'stretches'} without any reading.`,
  ];
  return {
    id: 'method',
    title: 'How it was reckoned',
    paragraphs: [
      'A Kalman smoother holds the heights by what is known: the height at ejection, the ground at touchdown, the zero of the sensors at rest.',
      channels === 'height' ? WITHOUT_READING : WITH_READING,
      channels === 'reading' ? '' : WITH_HEIGHT,
      parts.filter((one) => one !== '').join(' '),
    ].filter((one) => one !== ''),
  };
}

const WITH_READING =
  'The size of the specific force is taken as pointing up, with an error that is large while the can still moves sideways and while it rights itself.';
const WITHOUT_READING =
  'No g-reading tells the acceleration: a fall under drag, a braking and a steady descent are assumed, as rough as the heights themselves show. Every time of throttle-up is tried and weighed by how likely it makes the heights.';
const WITH_HEIGHT =
  'The barometer may be off by a zero, by a share of the height (warm air) and by a share of the dynamic pressure (its vent holes in the stream). The first two are found together with the course; the last is tried at many values, each weighed by how likely it makes the heights.';

function stepText(step: number): string {
  return String(Number(step.toPrecision(2)));
}
