/**
 * Which throttle-up height: the search on `explore`, the fresh flights on `confirm`, and what happens at the height that
 * comes of it.
 */

import { type Criterion, detailFor } from '../decision/criteria.js';
import { studyHeights } from '../decision/height-rule.js';
import { riskOf } from '../decision/judge.js';
import type { HeightDecision } from '../decision/result.js';
import type { SetName } from '../draws/draw.js';
import { columnOf, failedFlights } from '../ensemble/columns.js';
import { type Flown, remember } from '../ensemble/flown.js';
import type { Detail, Flyer } from '../ensemble/flyer.js';
import type { FlightColumns } from '../flight/record.js';
import { spread } from '../statistics/quantile.js';
import { causeRows } from './causes.js';
import type { HeightFacts } from './decisions.js';

export interface ChooseRequest {
  readonly criteria: readonly Criterion[];
  /** The planned height on `explore`, in full and with causes. */
  readonly planned: FlightColumns;
  /** Heights from which the search starts, ascending; and the step between heights that a pilot can fly. */
  readonly coarse: readonly number[];
  readonly step: number;
  readonly flyer: Flyer;
  /** Hears when the search is over and fresh flights are flown. */
  readonly onFresh: () => void;
  readonly stop: AbortSignal | undefined;
}

export interface ChosenHeight {
  /** Every height flown on `explore`, ascending, the planned one with its causes. */
  readonly curve: readonly FlightColumns[];
  /** Null when it was stopped before there was one. */
  readonly decision: HeightDecision | null;
  /** Fresh flights at the recommended height with their causes; null where none is recommended, or when stopped. */
  readonly fresh: FlightColumns | null;
}

export async function chooseHeight(request: ChooseRequest): Promise<ChosenHeight> {
  const { criteria, planned, coarse, step, stop } = request;
  const flights = planned.outcome.length;
  const flown = remember(announced(request), detailOf(criteria), undefined, stop);
  flown.put('explore', planned);
  const { decision } = await studyHeights(flown, { criteria, coarse, step, planned: planned.height, flights });
  const curve = flown.all('explore').filter(({ outcome }) => outcome.length > 0);
  if (stop?.aborted) return { curve, decision: null, fresh: null };
  const fresh = decision.height === null ? null : await withCauses(request, flown, decision.height);
  return { curve, decision, fresh };
}

/** The search judges heights; what is told of the recommended height comes from its fresh flights. */
export function detailOf(criteria: readonly Criterion[]): (set: SetName) => Detail {
  return (set) => detailFor(criteria, set === 'confirm' ? 'facts' : 'outcomes');
}

function announced({ flyer, onFresh }: ChooseRequest): Flyer {
  return {
    ...flyer,
    fly(batch, onFlown, stop) {
      if (batch.set === 'confirm') onFresh();
      return flyer.fly(batch, onFlown, stop);
    },
  };
}

/** The fresh flights at the recommended height, with the failed flights flown again for their causes; null when stopped. */
async function withCauses(
  { flyer, planned, stop }: ChooseRequest,
  flown: Flown,
  height: number,
): Promise<FlightColumns | null> {
  const [columns] = await flown.at('confirm', [height], planned.outcome.length);
  const ids = failedFlights(columns);
  if (ids.length === 0) return columns;
  const batch = { set: 'confirm', ids, heights: [height], detail: 'outcomes and causes' } as const;
  const [again] = await flyer.fly(batch, undefined, stop);
  if (again.outcome.length < ids.length) return null;
  const cause = columns.cause.slice();
  ids.forEach((id, index) => {
    cause[id] = again.cause[index];
  });
  return { ...columns, cause };
}

/** What happens at the recommended height, from its fresh flights. */
export function factsOf(fresh: FlightColumns, groundImpact: Criterion): HeightFacts {
  return {
    height: fresh.height,
    set: 'confirm',
    risk: riskOf(groundImpact, fresh),
    orderTime: spread(columnOf(fresh, 'order_time')),
    orderHeight: spread(columnOf(fresh, 'order_height')),
    cueHeight: spread(columnOf(fresh, 'cue_height')),
    arrestHeight: spread(columnOf(fresh, 'arrest_height')),
    causes: causeRows(fresh),
  };
}
