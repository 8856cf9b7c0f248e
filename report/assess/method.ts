/** Section 12 tells how the risk was computed, how far it has settled, what to be careful about and how to do it again. */
import type { AssessResult } from '../../sim/assess/result.js';
import type { Warning } from '../../sim/basics/warning.js';
import type { Convergence } from '../../sim/statistics/convergence.js';
import { proportionText } from '../../sim/statistics/words.js';
import { aboveAxis, acceptableRiskLine, chartBase, type Frame, riskFloor, riskTicks } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { colour } from '../kit/palette.js';
import { table } from '../kit/table.js';
import { commandLine, quoted, sameFlights } from '../kit/words/command.js';
import { countText, flightsText, prose } from '../kit/words/numbers.js';
import { upperEnd } from '../kit/words/sentences.js';
import { askedOptions } from './stopping-and-assurance.js';

export interface MethodSection {
  readonly warnings: readonly Warning[];
  readonly convergence: Figure | null;
  readonly reproduce: string;
  readonly command: string;
  readonly versions: readonly { readonly term: string; readonly value: string }[];
}

export async function methodSection(result: AssessResult, draw: Draw): Promise<MethodSection> {
  const { versions, scenario } = result;
  return {
    warnings: warningsOf(result),
    convergence: result.convergence.flights.length < 2 ? null : await convergenceFigure(result, draw),
    reproduce: result.partial
      ? 'The study was interrupted. This command flies as many flights again, from the same scenario file:'
      : 'With the same scenario file, program and Node version this command gives the same result, byte for byte, on any number of threads:',
    command: reproducingCommand(result),
    versions: [
      { term: 'Scenario', value: scenario.title },
      { term: 'Hash of the scenario (SHA-256)', value: scenario.hash },
      { term: 'Seed', value: result.seed },
      { term: 'Flights at the planned height', value: countText(result.flights) },
      { term: 'Program', value: `fallmargin ${versions.program}` },
      { term: 'Result schema, draw scheme', value: `${versions.resultSchema}, ${versions.drawScheme}` },
      { term: 'Node', value: versions.node },
    ],
  };
}

/** Every third point is enough in the table. */
const TABLE_STEP = 3;

export function warningsOf({ warnings }: AssessResult): readonly Warning[] {
  return warnings.map(({ code, text, advice }) => ({ code, text: prose(text), advice: prose(advice) }));
}

async function convergenceFigure(result: AssessResult, draw: Draw): Promise<Figure> {
  const { convergence, risk, acceptableRisk } = result;
  const half = convergence.flights.findIndex((flights) => 2 * flights >= risk.flights);
  const halfway = half < 0 ? convergence.flights.length - 1 : half;
  const now = convergence.estimate[convergence.estimate.length - 1];
  const moved = Math.abs(now - convergence.estimate[halfway]);
  const width = (risk.upper - risk.lower) / 2;
  const steady =
    moved <= width
      ? 'less than half the width of the final interval'
      : 'more than half the width of the final interval';
  const caption =
    risk.count === 0
      ? `No failure was seen in ${flightsText(risk.flights)}; the upper end has come down to ${upperEnd(risk)}.`
      : `The estimate ends at ${proportionText(risk)} after ${flightsText(risk.flights)}; since ${flightsText(convergence.flights[halfway])} it has moved by ${steady}.`;
  return figure(draw, {
    id: 'convergence',
    caption,
    charts: [(frame) => convergenceChart(convergence, acceptableRisk, frame)],
    labels: [`Estimate and interval of the risk as flights were added. ${caption}`],
    table: table(
      'The estimate and its 90 % interval after so many flights; each interval is for one look, not for stopping when it pleases.',
      ['#Flights', '#Estimate, %', '#Lower end, %', '#Upper end, %'],
      convergence.flights
        .map((flights, i) => [
          countText(flights),
          percent(convergence.estimate[i], convergence.upper[i] - convergence.lower[i]),
          percent(convergence.lower[i], convergence.upper[i] - convergence.lower[i]),
          percent(convergence.upper[i], convergence.upper[i] - convergence.lower[i]),
        ])
        .filter((_, i) => (convergence.flights.length - 1 - i) % TABLE_STEP === 0),
    ),
  });
}

/** The estimate as flights were added, on the same logarithmic axis of risk as the curve over the heights. */
function convergenceChart(convergence: Convergence, limit: number, frame: Frame): ChartSpec {
  const positive = (values: readonly number[]) => values.map((value) => 100 * value).filter((value) => value > 0);
  const settled = convergence.flights.map((flights, i) => (flights >= 100 ? convergence.lower[i] : 0));
  const floor = riskFloor([100 * limit, ...positive(convergence.estimate), ...positive(settled)]);
  const values = convergence.flights.map((flights, i) => ({
    flights,
    estimate: convergence.estimate[i] > 0 ? 100 * convergence.estimate[i] : null,
    lower: Math.max(floor, 100 * convergence.lower[i]),
    upper: 100 * convergence.upper[i],
  }));
  const first = Math.max(1, Math.min(...convergence.flights));
  const x = {
    field: 'flights',
    type: 'quantitative',
    scale: { type: 'log', domain: [first, Math.max(first + 1, ...convergence.flights)], nice: false },
    axis: { title: 'Flights flown', tickCount: 4, format: 'd' },
  } as const;
  const y = { type: 'quantitative', scale: { type: 'log', domain: [floor, 100], clamp: true } } as const;
  return {
    ...chartBase(frame, 250),
    layer: [
      {
        data: { values },
        layer: [
          {
            mark: { type: 'area', fill: colour('line'), fillOpacity: 0.75 },
            encoding: {
              x,
              y: {
                ...y,
                field: 'lower',
                axis: {
                  ...aboveAxis('Flights in 100 that do not land softly'),
                  values: riskTicks(floor),
                  format: '~r',
                },
              },
              y2: { field: 'upper' },
            },
          },
          {
            mark: { type: 'line', stroke: colour('ink'), strokeWidth: 2 },
            encoding: { x, y: { ...y, field: 'estimate' } },
          },
        ],
      },
      acceptableRiskLine(limit, y),
    ],
  };
}

function percent(share: number, width: number): string {
  return (100 * share).toFixed(width < 0.02 ? 1 : 0);
}

function reproducingCommand(result: AssessResult): string {
  const date = result.date === undefined ? [] : [`--date ${quoted(result.date)}`];
  const options = [...askedOptions(result), ...heightsOption(result), ...sameFlights(result), ...date];
  return commandLine('assess', result, options);
}

/** Heights only where the user chose them: a study that looks for the height itself was given none. */
function heightsOption({ heightDecision, curve, plannedHeight }: AssessResult): readonly string[] {
  if (heightDecision !== undefined) return [];
  const heights = curve.map((point) => point.height);
  const planned = heights.length <= 1 && (heights[0] ?? plannedHeight) === plannedHeight;
  return [`--heights ${planned ? 'planned' : heights.join(',')}`];
}
