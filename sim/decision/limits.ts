/** The day card: for two inputs of the day the lowest acceptable throttle-up height in each cell, or "do not fly". */
import type { LimitsCell, LimitsResult } from '../result/decisions.js';
import { proportion } from '../statistics/proportion.js';
import type { Detail, Flyer } from '../study/flyer.js';
import { remember } from './flown.js';
import { acceptedShare, isFutile } from './height-plan.js';
import { heightFigure, type Requirement, type Tally, tally } from './requirement.js';

/** One input of the day; its values ascend from easy to hard (more wind, longer wait). */
export interface LimitsAxis {
  readonly path: string;
  readonly values: readonly number[];
}

export interface LimitsRequest {
  readonly rows: LimitsAxis;
  readonly columns: LimitsAxis;
  /** Throttle-up heights to choose from, ascending, m. */
  readonly heights: readonly number[];
  readonly requirements: readonly Requirement[];
  /** Flights at which a height is judged. */
  readonly flights: number;
  /** Outcomes will do unless a requirement needs more. */
  readonly detail: Detail;
  /** The same scenario with both inputs at the cell's values. Closed when the cell is done. */
  readonly flyerFor: (row: number, column: number) => Promise<Flyer>;
  readonly onFlown?: (flights: number) => void;
  readonly onCell?: (cell: LimitsCell) => void;
  readonly stop?: AbortSignal;
}

/** A height is given up after this many flights, or 2.5 times as many and so on, once it is all but sure to fail. */
const FIRST_LOOK = 200;
const GROWTH = 2.5;
/** In the first cell every so many heights are tried before single ones; in every cell after so many full failures. */
const STRIDE = 4;
const FULL_FAILURES = 3;

/**
 * Walks the frontier. A cell begins at the highest of the heights that its easier neighbours (one row up, one column
 * left) needed, and goes up until a height is within every requirement at the full number of flights. A height that is
 * all but sure to fail is given up after 200 or 500 ... flights; once three have failed at the full number, only every
 * fourth height is tried, so the height found may be up to three steps over the lowest one that serves. Where an easier cell has no height, the harder ones have none, without flying. So
 * heights never fall towards the hard corner by construction: a harder cell that could do with less is not found out,
 * which errs to the safe side. Each cell stands by itself: its height holds with 95 %, not all cells together.
 *
 * Cost: one full study a cell, and one more where it needs a step more than its neighbours; 40 to 55 for 6 by 5 cells
 * in the tests. Null when stopped.
 */
export async function limitsCard(request: LimitsRequest): Promise<LimitsResult | null> {
  const { rows, columns, heights, flights } = request;
  const cells: LimitsCell[] = [];
  const at = (row: number, column: number): LimitsCell => cells[row * columns.values.length + column];
  for (let row = 0; row < rows.values.length; row++) {
    for (let column = 0; column < columns.values.length; column++) {
      const easier = [...(row > 0 ? [at(row - 1, column)] : []), ...(column > 0 ? [at(row, column - 1)] : [])];
      const cell = await walkCell(request, row, column, easier);
      if (request.stop?.aborted) return null;
      cells.push(cell);
      request.onCell?.(cell);
    }
  }
  const flightsFlown = cells.reduce((sum, cell) => sum + cell.flights, 0);
  return { rows, columns, heights, flights, cells, flightsFlown };
}

async function walkCell(
  request: LimitsRequest,
  row: number,
  column: number,
  easier: readonly LimitsCell[],
): Promise<LimitsCell> {
  const nowhere = { row, column, height: null, risk: null };
  if (easier.some(({ height }) => height === null)) return { ...nowhere, inherited: true, flights: 0 };
  const { heights, requirements } = request;
  const flyer = await request.flyerFor(row, column);
  const trial = createTrial(request, flyer);
  try {
    const needed = Math.max(...easier.map(({ height }) => heights.indexOf(height as number)));
    const start = easier.length > 0 ? needed : await firstPossible(request, trial);
    let failures = 0;
    for (let index = start; index < heights.length; index += failures < FULL_FAILURES ? 1 : STRIDE) {
      const found = await trial.inFull(heights[index]);
      if (found === null) continue;
      if (heightFigure(found, requirements, 'explore', request.flights).verdict !== 'within') {
        failures += 1;
        continue;
      }
      const risk = proportion(found.counts[0], found.flights);
      return { row, column, height: heights[index], risk, inherited: false, flights: trial.flown() };
    }
    return { ...nowhere, inherited: false, flights: trial.flown() };
  } finally {
    await flyer.close();
  }
}

/** Index from which the first cell walks: a stride under the first height, in strides, that is not given up at once. */
async function firstPossible({ heights }: LimitsRequest, trial: Trial): Promise<number> {
  for (let index = 0; index < heights.length; index += STRIDE) {
    if (await trial.survivesFirstLook(heights[index])) return Math.max(0, index - STRIDE + 1);
  }
  return Math.max(0, heights.length - STRIDE);
}

interface Trial {
  survivesFirstLook(height: number): Promise<boolean>;
  /** The tally at the full number of flights; null once the height is given up. */
  inFull(height: number): Promise<Tally | null>;
  flown(): number;
}

function createTrial({ requirements, flights, detail, onFlown, stop }: LimitsRequest, flyer: Flyer): Trial {
  const flown = remember(flyer, detail, onFlown, stop);
  const accepted = requirements.map(({ limit }) => acceptedShare(limit, flights));
  const look = async (height: number, size: number): Promise<Tally | null> => {
    const [columns] = await flown.at('explore', [height], size);
    const found = tally(columns, requirements);
    return isFutile(found, accepted) ? null : found;
  };
  const firstLook = Math.min(FIRST_LOOK, flights);
  return {
    survivesFirstLook: async (height) => (await look(height, firstLook)) !== null,
    async inFull(height) {
      for (let size = firstLook; size < flights; size = Math.round(size * GROWTH)) {
        if ((await look(height, size)) === null) return null;
      }
      return look(height, flights);
    },
    flown: () => flown.all('explore').reduce((sum, { outcome }) => sum + outcome.length, 0),
  };
}
