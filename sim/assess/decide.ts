/**
 * From flights to decisions: which heights, and, at the planned height, what nobody has measured, what drives the risk and
 * what would help.
 */
import { type Criterion, groundImpactIn } from '../decision/criteria.js';
import type { Drawer } from '../draws/drawer.js';
import type { Flyer } from '../ensemble/flyer.js';
import type { FlightColumns } from '../flight/record.js';
import type { Scenario } from '../scenario/scenario.js';
import { chooseHeight, factsOf } from './choose-height.js';
import type { Decisions } from './decisions.js';
import type { Phase } from './progress.js';
import { askInputs } from './questions/answer-all.js';
import type { WorldsAt } from './worlds-at.js';

export interface DecideRequest {
  readonly scenario: Scenario;
  readonly seed: string;
  readonly criteria: readonly Criterion[];
  /** The planned height on `explore`, in full and with causes; as many flights are flown at the others. */
  readonly planned: FlightColumns;
  /** Heights from which the search starts, ascending; and the step between heights that a pilot can fly. */
  readonly coarse: readonly number[];
  readonly step: number;
  readonly flyer: Flyer;
  readonly drawer: Drawer;
  readonly worldsAt: WorldsAt;
  readonly onPhase: (phase: Phase) => void;
  readonly stop: AbortSignal | undefined;
}

export interface Decided {
  /** Every height flown on `explore`, ascending, the planned one with its causes. */
  readonly curve: readonly FlightColumns[];
  readonly decisions: Decisions;
}

export async function decide(request: DecideRequest): Promise<Decided> {
  const { criteria, planned, worldsAt, onPhase, stop } = request;
  const groundImpact = groundImpactIn(criteria);
  onPhase('search for a height');
  const chosen = await chooseHeight({ ...request, onFresh: () => onPhase('fresh flights') });
  const { curve, decision, atAim, freshAtPlanned } = chosen;
  const found: Decisions = {
    heightDecision: decision,
    aim: atAim === null ? null : factsOf(atAim, groundImpact),
  };
  if (stop?.aborted) return { curve, decisions: found };
  onPhase('what nobody has measured');
  const worlds = await worldsAt(planned.height);
  if (stop?.aborted) return { curve, decisions: { ...found, worlds } };
  onPhase('what would help');
  const further = freshAtPlanned === null ? {} : ({ further: { plain: freshAtPlanned, set: 'confirm' } } as const);
  const asked = await askInputs({
    ...request,
    plain: planned,
    set: 'explore',
    ...further,
    limit: groundImpact.limit,
    worlds,
  });
  return { curve, decisions: { ...found, worlds, ...asked } };
}
