/** How the estimate settled as flights were added, on the same logarithmic axis of risk as the height curve. */
import type { Convergence } from '../../sim/statistics/convergence.js';
import { aboveAxis, chartBase, riskFloor, riskTicks } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';
import type { Frame } from '../kit/table.js';
import { percentLimit } from '../kit/words/numbers.js';

export function convergenceChart(convergence: Convergence, limit: number, frame: Frame): ChartSpec {
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
                  ...aboveAxis('Flights in 100 that hit the ground'),
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
      {
        data: { values: [{ limit: 100 * limit, text: `acceptable: ${percentLimit(limit)}` }] },
        layer: [
          {
            mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1.2 },
            encoding: { y: { ...y, field: 'limit' } },
          },
          {
            mark: { type: 'text', align: 'right', baseline: 'bottom', dx: -4, dy: -4, fontWeight: 600 },
            encoding: { x: { value: 'width' }, y: { ...y, field: 'limit' }, text: { field: 'text' } },
          },
        ],
      },
    ],
  };
}
