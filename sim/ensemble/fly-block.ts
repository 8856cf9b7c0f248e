/** A few flights of a batch are flown one after the other: the inner loop that every flyer shares. */

import type { Change, FlightDraw, SetName } from '../draws/draw.js';
import { createDrawer } from '../draws/drawer.js';
import { seekCause } from '../flight/cause.js';
import type { FlightModel, FlightRecord } from '../flight/flight.js';
import { createFlightModel } from '../flight/model.js';
import { CAUSES, COLUMN_NAMES, type FlightColumns, isSoft, OUTCOMES } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';
import { emptyColumns } from './columns.js';
import { type Batch, detailAt, seeksCauses } from './flyer.js';

/** Gives any flight's draw; streams only skip forward, so ask in ascending order. */
export interface Drawer {
  draw(set: SetName, id: number, changes?: readonly Change[]): FlightDraw;
}

/** Finds the cause of a flight that is not soft by flying it again with inputs at their medians. */
export type SeekCause = (
  model: FlightModel,
  redraw: (changes: readonly Change[]) => FlightDraw,
  height: number,
  record: FlightRecord,
) => number;

/** What flights are made of. */
export interface FlightMaker {
  readonly drawer: Drawer;
  readonly model: FlightModel;
  readonly seekCause: SeekCause;
}

/** Everything needed to fly any flight of a scenario under a seed. */
export function createMaker(scenario: Scenario, seed: string): FlightMaker {
  return { drawer: createDrawer(scenario, seed), model: createFlightModel(scenario), seekCause };
}

const NUMERICAL = OUTCOMES.indexOf('numerical');
const NOT_SOUGHT = CAUSES.indexOf('not sought');

export function flyBlock({ drawer, model, seekCause: seek }: FlightMaker, batch: Batch): FlightColumns[] {
  const kept = emptyColumns(batch, batch.ids.length);
  const sought: { readonly index: number; readonly record: FlightRecord }[] = [];
  const given = batch.changes ?? [];
  batch.ids.forEach((id, flight) => {
    model.fly(drawer.draw(batch.set, id, given), batch.heights, (index, record) => {
      const { outcome, cause, columns } = kept[index];
      outcome[flight] = record.outcome;
      cause[flight] = record.cause;
      COLUMN_NAMES.forEach((name, column) => {
        const values = columns[name];
        if (values) values[flight] = orNaN(record.values[column]);
      });
      if (
        seeksCauses(detailAt(batch, index)) &&
        !isSoft(record.outcome) &&
        record.outcome !== NUMERICAL &&
        record.cause === NOT_SOUGHT
      )
        sought.push({ index, record: { ...record, values: record.values.slice() } });
    });
    for (const { index, record } of sought) {
      const redraw = (changes: readonly Change[]) => drawer.draw(batch.set, id, [...given, ...changes]);
      kept[index].cause[flight] = seek(model, redraw, batch.heights[index], record);
    }
    sought.length = 0;
  });
  return kept;
}

/** A flight that diverged may end anywhere: what no 32-bit number holds is not known. */
function orNaN(value: number): number {
  return Number.isFinite(Math.fround(value)) ? value : Number.NaN;
}
