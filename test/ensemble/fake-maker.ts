/** A stand-in for flights in the tests of studies: what happens is a plain function of flight number and height. */

import type { AssessMeans } from '../../sim/assess/put-together.js';
import { criteriaOf } from '../../sim/decision/criteria.js';
import type { Change, FlightDraw, SetName } from '../../sim/draws/draw.js';
import { createDrawer, nominalDraw } from '../../sim/draws/drawer.js';
import type { FlightMaker } from '../../sim/ensemble/fly-block.js';
import { createSerialFlyer } from '../../sim/ensemble/serial-flyer.js';
import type { FlightModel, FlightRecord } from '../../sim/flight/flight.js';
import { CAUSES, type Cause, COLUMN_NAMES, OUTCOMES } from '../../sim/flight/record.js';
import { TRACE_COLUMNS } from '../../sim/flight/trace.js';
import type { Scenario } from '../../sim/scenario/scenario.js';

interface FakeDraw {
  readonly set: SetName;
  readonly id: number;
  readonly changes: readonly Change[];
}

export interface FakeLog {
  readonly flown: { readonly set: SetName; readonly id: number; readonly heights: readonly number[] }[];
  readonly sought: { readonly id: number; readonly height: number; readonly changes: readonly Change[] }[];
}

/** Numbers of flights in 100 that fail at a height: every height is as risky as told. */
export type FailuresInHundred = (height: number) => number;

/** Flight `id` fails where the last two digits of 37 id are under the number: spread evenly over any hundred. */
export function fakeFails(id: number, failures: number): boolean {
  return (id * 37) % 100 < failures;
}

/** @param cause what the record of a failed flight says took it */
export function fakeMaker(
  failuresAt: FailuresInHundred,
  cause: Cause = 'not sought',
): { readonly maker: FlightMaker; readonly log: FakeLog } {
  const log: FakeLog = { flown: [], sought: [] };
  const record: FlightRecord = { outcome: 0, cause: 0, values: new Float64Array(COLUMN_NAMES.length) };

  const fill = (id: number, height: number) => {
    const fails = fakeFails(id, failuresAt(height));
    record.outcome = OUTCOMES.indexOf(fails ? 'crash' : 'soft');
    record.cause = CAUSES.indexOf(fails ? cause : 'none');
    record.values.forEach((_, column) => {
      record.values[column] = column + 1 + (id % 10) / 10;
    });
    record.values[COLUMN_NAMES.indexOf('touchdown_speed')] = fails ? 20 + (id % 7) : 1 + (id % 3) / 10;
    if (fails) record.values[COLUMN_NAMES.indexOf('arrest_time')] = Number.NaN;
    return record;
  };

  const model: FlightModel = {
    fly(draw, heights, receive) {
      const { set, id } = draw as unknown as FakeDraw;
      log.flown.push({ set, id, heights });
      heights.forEach((height, index) => {
        receive(index, fill(id, height));
      });
    },
    trace(draw, height) {
      const { id } = draw as unknown as FakeDraw;
      const kept = fill(id ?? 0, height);
      const rows = [0, 10, 20].map((time) => TRACE_COLUMNS.map((_, column) => (column === 0 ? time : 100 - time)));
      return {
        record: { ...kept, values: kept.values.slice() },
        events: [{ name: 'touchdown', time: 20, height: 0 }],
        phases: [],
        columns: TRACE_COLUMNS,
        rows,
      };
    },
  };

  const draw = (set: SetName, id: number, changes: readonly Change[] = []) =>
    ({ set, id, changes }) as unknown as FlightDraw;
  return {
    log,
    maker: {
      drawer: { draw },
      model,
      seekCause(_model, redraw, height) {
        const { id, changes } = redraw([{ path: 'pilot.reaction', quantile: 0.5 }]) as unknown as FakeDraw;
        log.sought.push({ id, height, changes });
        return CAUSES.indexOf('reaction');
      },
    },
  };
}

/** What an assessment flies with: flights of the maker, inputs of the scenario. */
export function meansOf(scenario: Scenario, maker: FlightMaker): AssessMeans {
  const flyer = createSerialFlyer(maker);
  return {
    flyer,
    maker,
    drawer: createDrawer(scenario, '1'),
    nominal: nominalDraw(scenario),
    criteria: criteriaOf(scenario),
  };
}

/** Flight numbers from 0. */
export function firstIds(flights: number): Uint32Array {
  return Uint32Array.from({ length: flights }, (_, id) => id);
}
