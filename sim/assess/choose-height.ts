/**
 * Which throttle-up height: the search on `explore`, the fresh flights on `confirm`, and what happens at the height that
 * comes of it.
 */

import { type Criterion, detailFor } from '../decision/criteria.js';
import { riskOf } from '../decision/judge.js';
import type { HeightDecision } from '../decision/result.js';
import { studyHeights } from '../decision/study-heights.js';
import type { SetName } from '../draws/draw.js';
import { columnOf } from '../ensemble/columns.js';
import { remember } from '../ensemble/flown.js';
import type { Detail, Flyer } from '../ensemble/flyer.js';
import type { FlightColumns } from '../flight/record.js';
import { spread } from '../statistics/quantile.js';
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
  /** Fresh flights at the aim; null where there is none, or when stopped. */
  readonly atAim: FlightColumns | null;
  /** Fresh flights at the planned height, where there are any. */
  readonly freshAtPlanned: FlightColumns | null;
}

export async function chooseHeight(request: ChooseRequest): Promise<ChosenHeight> {
  const { criteria, planned, coarse, step, stop } = request;
  const flights = planned.outcome.length;
  const flown = remember(announced(request), detailOf(criteria), undefined, stop);
  flown.put('explore', planned);
  const { decision } = await studyHeights(flown, { criteria, coarse, step, planned: planned.height, flights });
  const curve = flown.all('explore').filter(({ outcome }) => outcome.length > 0);
  if (stop?.aborted) return { curve, decision: null, atAim: null, freshAtPlanned: null };
  const fresh = (height: number | undefined) => flown.all('confirm').find((one) => one.height === height) ?? null;
  return { curve, decision, atAim: fresh(decision.aim?.height), freshAtPlanned: fresh(planned.height) };
}

/** The search judges heights; what is told of the aim comes from its fresh flights. */
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

/** What happens at the aim, from its fresh flights. */
export function factsOf(fresh: FlightColumns, groundImpact: Criterion): HeightFacts {
  return {
    height: fresh.height,
    set: 'confirm',
    risk: riskOf(groundImpact, fresh),
    orderTime: spread(columnOf(fresh, 'order_time')),
    orderHeight: spread(columnOf(fresh, 'order_height')),
    cueHeight: spread(columnOf(fresh, 'cue_height')),
    arrestHeight: spread(columnOf(fresh, 'arrest_height')),
  };
}
