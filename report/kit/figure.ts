/** A figure holds its finding, its charts at both widths, a legend and the numbers behind them, as the templates take it. */
import { type Frame, NARROW, WIDE } from './chart-style.js';
import type { ChartSpec, Draw } from './draw.js';
import type { Table } from './table.js';
import { unbroken } from './words/numbers.js';

export interface LegendEntry {
  /** Name of a symbol of the page. */
  readonly symbol: string;
  readonly text: string;
}

export interface Figure {
  readonly id: string;
  /** The finding, in one or two sentences. */
  readonly caption: string;
  readonly charts: readonly { readonly wide: string; readonly narrow: string }[];
  readonly legend: readonly LegendEntry[];
  /** Null where the numbers stand in a table beside the figure. */
  readonly table: Table | null;
}

export interface FigurePlan {
  readonly id: string;
  readonly caption: string;
  readonly charts: readonly ((frame: Frame) => ChartSpec)[];
  /** What each chart shows, for readers who do not see it; the caption tells the finding. */
  readonly labels: readonly string[];
  readonly legend?: readonly LegendEntry[];
  readonly table: Table | null;
}

export async function figure(draw: Draw, plan: FigurePlan): Promise<Figure> {
  const charts = [];
  for (const [index, chart] of plan.charts.entries()) {
    const label = plan.labels[index];
    charts.push({ wide: await draw(chart(WIDE), label), narrow: await draw(chart(NARROW), label) });
  }
  const { id, caption, legend = [] } = plan;
  return { id, caption: unbroken(caption), charts, legend, table: plan.table };
}
