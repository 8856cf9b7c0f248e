/**
 * A map shows where flights come down: soft landings as a pale ground, failed flights in front, since they are the
 * hazard.
 */
import type { Footprint } from '../../sim/assess/result.js';
import type { KeepOutCircle } from '../../sim/scenario/lookup.js';
import { aboveAxis, chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec } from '../kit/draw.js';
import { colour } from '../kit/palette.js';

export interface FootprintData {
  readonly footprint: Footprint;
  readonly recoveryRadius: number | null;
  readonly keepOut: readonly KeepOutCircle[];
  readonly keepAway: number | null;
}

const CIRCLE_POINTS = 72;

function circle(name: string, east: number, north: number, radius: number) {
  return Array.from({ length: CIRCLE_POINTS + 1 }, (_, i) => {
    const angle = (2 * Math.PI * i) / CIRCLE_POINTS;
    return { name, point: i, east: east + radius * Math.sin(angle), north: north + radius * Math.cos(angle) };
  });
}

/** Middles of the cells that hold a flight, with the corners of each cell. */
function cells(footprint: Footprint, counts: readonly number[]) {
  const { cell, halfCells } = footprint;
  const side = 2 * halfCells;
  return counts.flatMap((count, index) => {
    if (count === 0) return [];
    const west = ((index % side) - halfCells) * cell;
    const south = (Math.floor(index / side) - halfCells) * cell;
    return [{ count, west, south, east: west + cell, north: south + cell, x: west + cell / 2, y: south + cell / 2 }];
  });
}

/** Half the width of the map: all flights on the grid, the recovery circle and the keep-out circles. */
export function mapReach(data: FootprintData): number {
  const { footprint, recoveryRadius, keepOut, keepAway } = data;
  const far = [...cells(footprint, footprint.soft), ...cells(footprint, footprint.notSoft)].map((one) =>
    Math.max(Math.abs(one.x), Math.abs(one.y)),
  );
  const circles = keepOut.map(({ east, north, radius }) => Math.max(Math.abs(east), Math.abs(north)) + radius);
  const reach = far.reduce(
    (most, one) => Math.max(most, one),
    Math.max(recoveryRadius ?? 0, keepAway ?? 0, footprint.cell, ...circles),
  );
  return 1.05 * (reach + footprint.cell / 2);
}

export function footprintChart(data: FootprintData, frame: Frame): ChartSpec {
  const { footprint, keepOut, recoveryRadius, keepAway } = data;
  const reach = mapReach(data);
  const scale = { domain: [-reach, reach], nice: false } as const;
  const ticks = frame.narrow ? 4 : 8;
  const x = {
    type: 'quantitative',
    scale,
    axis: { title: 'East of the planned landing point, m', tickCount: ticks, grid: true },
  } as const;
  const y = {
    type: 'quantitative',
    scale,
    axis: { ...aboveAxis('North of the planned landing point, m'), tickCount: ticks },
  } as const;
  const size = frame.narrow ? frame.width : 560;
  const line = (values: ReturnType<typeof circle>, stroke: string, dash: number[], width: number) =>
    ({
      data: { values },
      mark: { type: 'line', stroke, strokeWidth: width, strokeDash: dash },
      encoding: {
        x: { ...x, field: 'east' },
        y: { ...y, field: 'north' },
        order: { field: 'point' },
        detail: { field: 'name' },
      },
    }) as const;
  return {
    ...chartBase({ ...frame, width: size }, size + (frame.narrow ? 26 : 14)),
    layer: [
      {
        data: { values: cells(footprint, footprint.soft) },
        mark: { type: 'rect', fill: colour('soft') },
        encoding: {
          x: { ...x, field: 'west' },
          x2: { field: 'east' },
          y: { ...y, field: 'south' },
          y2: { field: 'north' },
          fillOpacity: {
            field: 'count',
            type: 'quantitative',
            scale: { type: 'log', domainMin: 0.5, range: [0.25, 1] },
            legend: null,
          },
        },
      },
      ...(recoveryRadius === null ? [] : [line(circle('recovery', 0, 0, recoveryRadius), colour('accent'), [], 1.6)]),
      ...(keepAway === null ? [] : [line(circle('keep away', 0, 0, keepAway), colour('ink'), [1, 4], 1.8)]),
      ...(keepOut.length === 0
        ? []
        : [
            line(
              keepOut.flatMap(({ name, east, north, radius }) => circle(name, east, north, radius)),
              colour('ink'),
              [6, 3],
              1.6,
            ),
            {
              data: {
                values: keepOut.map(({ name, east, north, radius }) => ({ name, east, top: north + radius })),
              },
              mark: { type: 'text', fontWeight: 600, baseline: 'bottom', dy: -3, limit: frame.narrow ? 90 : 160 },
              encoding: { x: { ...x, field: 'east' }, y: { ...y, field: 'top' }, text: { field: 'name' } },
            } as const,
          ]),
      {
        data: { values: cells(footprint, footprint.notSoft) },
        mark: {
          type: 'point',
          shape: 'triangle-up',
          filled: true,
          opacity: 1,
          fill: colour('crash'),
          stroke: colour('paper'),
          strokeWidth: 0.8,
        },
        encoding: {
          x: { ...x, field: 'x' },
          y: { ...y, field: 'y' },
          size: {
            field: 'count',
            type: 'quantitative',
            scale: { type: 'sqrt', domainMin: 1, range: [frame.narrow ? 26 : 46, frame.narrow ? 120 : 230] },
            legend: null,
          },
        },
      },
      {
        data: { values: [{ east: 0, north: 0 }] },
        mark: {
          type: 'point',
          shape: 'cross',
          filled: true,
          size: 110,
          opacity: 1,
          fill: colour('accent'),
          stroke: colour('paper'),
        },
        encoding: { x: { ...x, field: 'east' }, y: { ...y, field: 'north' } },
      },
    ],
  };
}
