/** A walk over the day card finds the lowest acceptable throttle-up height in each cell, or "do not fly". */

import { type Criterion, detailFor, named } from '../decision/criteria.js';
import { acceptedShare, isFutile, leastRisky } from '../decision/height-plan.js';
import { groundImpactAt, heightFigure, type Tally, tally } from '../decision/judge.js';
import { remember } from '../ensemble/flown.js';
import type { Flyer } from '../ensemble/flyer.js';
import { proportion, verdictOf } from '../statistics/proportion.js';
import type { WalkedCard, WalkedCell } from './result.js';

/** One input of the day, with its values from easy to hard (more wind, longer wait) where it is known which are hard. */
export interface WalkAxis {
  readonly path: string;
  readonly values: readonly number[];
  /** False where it is not known which values are harder: no cell then goes by its neighbours along this axis. */
  readonly ordered?: boolean;
}

export interface WalkRequest {
  readonly rows: WalkAxis;
  readonly columns: WalkAxis;
  /** Throttle-up heights to choose from, ascending, m. */
  readonly heights: readonly number[];
  readonly criteria: readonly Criterion[];
  /** Flights at which a height is judged. */
  readonly flights: number;
  /** The same scenario with both inputs at the cell's values. Closed when the cell is done. */
  readonly flyerFor: (row: number, column: number) => Promise<Flyer>;
  readonly onFlown?: (flights: number) => void;
  readonly onCell?: (cell: WalkedCell) => void;
  readonly stop?: AbortSignal;
}

/** A height is given up after this many flights, or 2.5 times as many and so on, once it is all but sure to fail. */
const FIRST_LOOK = 200;
const GROWTH = 2.5;
/**
 * Where a cell begins anew, heights this many steps apart are looked at before single heights are; the same holds after
 * STEEP heights in a row were given up at once.
 */
const STRIDE = 4;
const STEEP = 2;
/** Full failures after which only every fourth height is tried. */
const FULL_FAILURES = 3;

/**
 * Walks the frontier. A cell begins at the highest of the heights that its easier neighbours (one row up, one column
 * left) needed, and goes up until a height is within every criterion at the full number of flights. A height that is
 * all but sure to fail is given up after 200 or 500 ... flights; once three have failed at the full number, only every
 * fourth height is tried, so the height found may be up to three steps over the lowest that serves; `untried` says
 * so. Where an easier cell has no height, the harder cells have none, without flying. So heights never fall towards the
 * hard corner by construction: a harder cell that could do with less is not found out, which errs to the safe side.
 * Along an axis without a known order no cell goes by its neighbours. Each cell stands by itself: its height holds with
 * 95 %, not all cells together.
 *
 * Cost: one full study a cell, and one more where it needs a step more than its neighbours; 40 to 55 for 6 by 5 cells
 * in the tests. When stopped, the cells finished until then; null without any.
 */
export async function walkCard(request: WalkRequest): Promise<WalkedCard | null> {
  const { rows, columns } = request;
  const cells: WalkedCell[] = [];
  const at = (row: number, column: number): WalkedCell => cells[row * columns.values.length + column];
  for (let row = 0; row < rows.values.length; row++) {
    for (let column = 0; column < columns.values.length; column++) {
      const easier = [
        ...(row > 0 && rows.ordered !== false ? [at(row - 1, column)] : []),
        ...(column > 0 && columns.ordered !== false ? [at(row, column - 1)] : []),
      ];
      const cell = await walkCell(request, row, column, easier);
      if (request.stop?.aborted) return cells.length === 0 ? null : cardOf(request, cells);
      cells.push(cell);
      request.onCell?.(cell);
    }
  }
  return cardOf(request, cells);
}

function cardOf({ rows, columns, heights, flights }: WalkRequest, cells: readonly WalkedCell[]): WalkedCard {
  const flightsFlown = cells.reduce((sum, cell) => sum + cell.flights, 0);
  const axis = ({ path, values }: WalkAxis) => ({ path, values });
  return { rows: axis(rows), columns: axis(columns), heights, flights, cells, flightsFlown };
}

async function walkCell(
  request: WalkRequest,
  row: number,
  column: number,
  easier: readonly WalkedCell[],
): Promise<WalkedCell> {
  const nowhere = { row, column, height: null, risk: null, untried: 0 };
  const closed = easier.find(({ height }) => height === null);
  if (closed !== undefined) return { ...nowhere, inherited: true, closest: closed.closest, flights: 0 };
  const { heights, criteria, flights } = request;
  const flyer = await request.flyerFor(row, column);
  const trial = createTrial(request, flyer);
  try {
    const needed = Math.max(...easier.map(({ height }) => heights.indexOf(height as number)));
    const start = easier.length > 0 ? needed : await firstPossible(request, trial, 0);
    let failures = 0;
    let givenUpAtOnce = 0;
    for (let index = start; index < heights.length; ) {
      const height = heights[index];
      const found = await trial.inFull(height);
      const figure = found && heightFigure(found, criteria, 'explore', flights);
      if (figure?.verdict === 'within') {
        const { risk } = groundImpactAt(figure, criteria);
        const untried = passedOver(heights.slice(start, index), trial.tallies());
        return { row, column, height, risk, untried, inherited: false, closest: null, flights: trial.flown() };
      }
      if (figure !== null) failures += 1;
      givenUpAtOnce = (await trial.survivesFirstLook(height)) ? 0 : givenUpAtOnce + 1;
      index += failures < FULL_FAILURES ? 1 : STRIDE;
      if (givenUpAtOnce >= STEEP) index = Math.max(index, await firstPossible(request, trial, index));
    }
    return { ...nowhere, inherited: false, closest: closestOf(trial.tallies(), request), flights: trial.flown() };
  } finally {
    await flyer.close();
  }
}

/** The height that came nearest to serving, and the criteria of which it breaks more than the full number may show. */
function closestOf(tallies: readonly Tally[], { criteria, flights }: WalkRequest): WalkedCell['closest'] {
  if (tallies.length === 0) return null;
  const best = leastRisky(tallies, criteria);
  const missed = criteria.flatMap((criterion, index) => {
    const { limit } = criterion;
    const risk = proportion(best.counts[index], best.flights);
    return risk.estimate > acceptedShare(limit, flights)
      ? [{ ...named(criterion), risk, verdict: verdictOf(risk, limit) }]
      : [];
  });
  return { height: best.height, criteria: missed };
}

/** How many of these heights were passed over since the last height that was tried. */
function passedOver(heights: readonly number[], tried: readonly Tally[]): number {
  const known = new Set(tried.map(({ height }) => height));
  return heights.length - 1 - heights.findLastIndex((height) => known.has(height));
}

/** Index to walk on from: a stride under the first height, in strides from `from`, that is not given up at once. */
async function firstPossible({ heights }: WalkRequest, trial: Trial, from: number): Promise<number> {
  for (let index = from; index < heights.length; index += STRIDE) {
    if (await trial.survivesFirstLook(heights[index])) return Math.max(from, index - STRIDE + 1);
  }
  return Math.max(from, heights.length - STRIDE);
}

interface Trial {
  survivesFirstLook(height: number): Promise<boolean>;
  /** The tally at the full number of flights; null once the height is given up. */
  inFull(height: number): Promise<Tally | null>;
  /** What was seen at each height tried. */
  tallies(): readonly Tally[];
  flown(): number;
}

function createTrial({ criteria, flights, onFlown, stop }: WalkRequest, flyer: Flyer): Trial {
  const flown = remember(flyer, detailFor(criteria), onFlown, stop);
  const accepted = criteria.map(({ limit }) => acceptedShare(limit, flights));
  const look = async (height: number, size: number): Promise<Tally | null> => {
    const [columns] = await flown.at('explore', [height], size);
    const found = tally(columns, criteria);
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
    tallies: () => flown.all('explore').map((columns) => tally(columns, criteria)),
    flown: () => flown.all('explore').reduce((sum, { outcome }) => sum + outcome.length, 0),
  };
}
