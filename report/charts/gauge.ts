/** The risk at one height against its limit, on a line: the answer at a glance. */
import type { Proportion } from '../../sim/result/result.js';
import { colour } from '../palette.js';
import type { Frame } from '../table.js';
import { percentLimit } from '../words/numbers.js';
import type { ChartSpec } from './draw.js';
import { chartBase, riskFloor, riskTicks } from './style.js';

const INNER_HEIGHT = 30;
const SIDE = 18;

export function gaugeChart(risk: Proportion, limit: number, frame: Frame): ChartSpec {
  const inHundred = (share: number) => 100 * share;
  const floor = riskFloor([
    inHundred(limit) / 4,
    inHundred(risk.lower),
    risk.count === 0 ? inHundred(risk.upper) / 3 : 1,
  ]);
  const x = {
    type: 'quantitative',
    scale: { type: 'log', domain: [floor, 100], clamp: true },
    axis: {
      title: 'Flights in 100 that hit the ground',
      values: riskTicks(floor),
      format: '~r',
      labelOverlap: true,
    },
  } as const;
  const interval = {
    lower: Math.max(floor, inHundred(risk.lower)),
    upper: inHundred(risk.upper),
    estimate: Math.max(floor, inHundred(risk.estimate)),
  };
  return {
    ...chartBase(frame, INNER_HEIGHT),
    width: frame.width - 2 * SIDE,
    padding: { left: SIDE, right: SIDE, top: 20, bottom: 46 },
    autosize: 'none',
    layer: [
      {
        data: { values: [{ from: floor, limit: inHundred(limit), text: `acceptable: ${percentLimit(limit)}` }] },
        layer: [
          {
            mark: { type: 'rect', fill: colour('accent-tint') },
            encoding: { x: { ...x, field: 'from' }, x2: { field: 'limit' } },
          },
          {
            mark: { type: 'rule', stroke: colour('ink'), strokeWidth: 1.6 },
            encoding: { x: { ...x, field: 'limit' } },
          },
          {
            mark: { type: 'text', align: 'left', baseline: 'bottom', dx: -1, fontWeight: 600 },
            encoding: { x: { ...x, field: 'limit' }, y: { value: -4 }, text: { field: 'text' } },
          },
        ],
      },
      {
        data: { values: [interval] },
        layer: [
          {
            mark: { type: 'bar', height: 12, fill: colour('ink') },
            encoding: { x: { ...x, field: 'lower' }, x2: { field: 'upper' } },
          },
          ...(risk.count === 0
            ? []
            : [
                {
                  mark: { type: 'tick', orient: 'vertical', thickness: 3, size: 26, color: colour('ink') },
                  encoding: { x: { ...x, field: 'estimate' } },
                },
              ]),
        ],
      },
    ],
  };
}
