/**
 * From flights to decisions: which height, what nobody has measured, what drives the risk and what would help. It speaks
 * of the recommended height where there is one, else of the planned one.
 */
import { type DrawnUniforms, driversOf } from '../decision/drivers.js';
import { type Flown, idsBetween, remember } from '../decision/flown.js';
import type { HeightPlanRequest } from '../decision/height-plan.js';
import { studyHeights } from '../decision/height-rule.js';
import { whatWouldHelp } from '../decision/help.js';
import { measureFirst } from '../decision/measure-first.js';
import { pessimisticRow } from '../decision/pessimistic.js';
import { groundImpact, outsideCircle } from '../decision/requirement.js';
import { tippingValues } from '../decision/tipping.js';
import { flyWorlds } from '../decision/worlds.js';
import type { FlightDraw, SetName } from '../draws/draw.js';
import type { Drawer } from '../draws/drawer.js';
import type { FlightColumns } from '../flight/record.js';
import type { Decisions, HeightFacts } from '../result/decisions.js';
import type { Scenario } from '../scenario/scenario.js';
import { uniformDistance } from '../statistics/kolmogorov.js';
import { proportion } from '../statistics/proportion.js';
import { spread } from '../statistics/quantile.js';
import { heldInput, unmeasuredAsked, unmeasuredDrawn, valueAtQuantile } from './asked-inputs.js';
import { causeRows } from './causes.js';
import { columnOf } from './columns-of.js';
import type { Flyer } from './flyer.js';

export interface DecideRequest {
  readonly scenario: Scenario;
  readonly seed: string;
  readonly flights: number;
  /** The planned height on `explore`, in full and with causes. */
  readonly planned: FlightColumns;
  /** Heights from which the search starts, ascending; and the step between heights that a pilot can fly. */
  readonly coarse: readonly number[];
  readonly step: number;
  readonly flyer: Flyer;
  readonly drawer: Drawer;
  readonly nominal: FlightDraw;
  readonly onFlown?: (flights: number) => void;
  readonly stop?: AbortSignal;
}

export interface Decided {
  /** Every height flown on `explore`, ascending, the planned one with its causes. */
  readonly curve: readonly FlightColumns[];
  readonly decisions: Decisions;
}

/** Inputs that are asked what they would save; guesses whose tipping value is sought. */
const HELP_INPUTS = 5;
const HELP_SOFT = 400;
const HELP_FAILED = 200;
const TIPPING_INPUTS = 3;
const TIPPING_SAMPLE = 500;
const PESSIMISTIC_FLIGHTS = 2000;
/** Failures under which nothing is asked of the inputs. */
const LEAST_FAILURES = 20;

export async function decide(request: DecideRequest): Promise<Decided> {
  const { flyer, planned, flights, stop, onFlown } = request;
  const flown = remember(flyer, 'full', onFlown, stop);
  flown.put('explore', planned);
  const { decision } = await studyHeights(flown, planRequest(request));
  const curve = flown.all('explore');
  const enough = (columns: FlightColumns) => columns.outcome.length === flights;
  if (stop?.aborted) return { curve, decisions: { heightDecision: null } };
  const focus = decision.height === null ? null : await withCauses(request, flown, decision.height);
  const plain = focus ?? planned;
  const set: SetName = focus === null ? 'explore' : 'confirm';
  const facts = focus === null || !enough(focus) ? null : factsOf(focus, set);
  return {
    curve,
    decisions: { heightDecision: decision, recommended: facts, ...(await askInputs(request, plain, set)) },
  };
}

function planRequest({ nominal, coarse, step, planned, flights }: DecideRequest): HeightPlanRequest {
  const { ground_impact_risk: limit, recovery_circle: circle } = nominal.inputs.criteria;
  const requirements = [groundImpact(limit)];
  if (circle !== null) requirements.push(outsideCircle(circle.radius, circle.chance_outside));
  return { requirements, coarse, step, planned: planned.height, flights };
}

/** The fresh flights at the recommended height, the failed ones flown again for their causes. */
async function withCauses({ flyer, flights }: DecideRequest, flown: Flown, height: number): Promise<FlightColumns> {
  const [columns] = await flown.at('confirm', [height], flights);
  const ids = failedOf(columns);
  if (ids.length === 0) return columns;
  const [again] = await flyer.fly({ set: 'confirm', ids, heights: [height], detail: 'causes' });
  const cause = columns.cause.slice();
  ids.forEach((id, index) => {
    cause[id] = again.cause[index];
  });
  return { ...columns, cause };
}

function failedOf({ outcome }: FlightColumns): Uint32Array {
  const ids: number[] = [];
  outcome.forEach((one, id) => {
    if (one !== 0) ids.push(id);
  });
  return Uint32Array.from(ids);
}

function factsOf(columns: FlightColumns, set: SetName): HeightFacts {
  const failed = failedOf(columns).length;
  return {
    height: columns.height,
    set,
    risk: proportion(failed, columns.outcome.length),
    orderTime: spread(columnOf(columns, 'order_time')),
    orderHeight: spread(columnOf(columns, 'order_height')),
    cueHeight: spread(columnOf(columns, 'cue_height')),
    arrestHeight: spread(columnOf(columns, 'arrest_height')),
    causes: causeRows(columns),
  };
}

/** Worlds, drivers, what would help, what to measure first, tipping values and the pessimistic row at one height. */
async function askInputs(request: DecideRequest, plain: FlightColumns, set: SetName): Promise<Decisions> {
  const { scenario, seed, flyer, drawer, nominal, onFlown, stop } = request;
  const limit = nominal.inputs.criteria.ground_impact_risk;
  const { height } = plain;
  const means = { flyer, set, ...(onFlown ? { onFlown } : {}), ...(stop ? { stop } : {}) };
  const hasUnmeasured = drawer.drawn.some(({ unmeasured }) => unmeasured);
  const worlds = hasUnmeasured ? await flyWorlds(flyer, height, limit, undefined, onFlown, stop) : null;
  if (stop?.aborted) return { worlds };

  const ids = idsBetween(0, plain.outcome.length);
  const drawn: DrawnUniforms[] = drawer.drawn
    .filter(({ part }) => part !== 'luck')
    .map(({ name }) => ({ path: name, uniforms: drawer.uniforms(name, set, ids) }));
  const drivers = driversOf(plain, drawn);
  const rows = measureFirst(unmeasuredDrawn(scenario, drawer, set, ids), plain.outcome, worlds?.sd ?? null);
  const failures = failedOf(plain).length;
  if (failures < LEAST_FAILURES) return { worlds, drivers, measureFirst: rows };

  const help = await whatWouldHelp({
    ...means,
    seed,
    plain,
    inputs: suspects(request, plain, set).map(heldInput),
    softSample: HELP_SOFT,
    failedSample: HELP_FAILED,
  });
  const guesses = unmeasuredAsked(drawer, set, plain);
  const strongest = rows.slice(0, TIPPING_INPUTS).map(({ path }) => path);
  const tipping = await tippingValues({
    ...means,
    plain,
    limit,
    inputs: guesses.filter(({ name }) => strongest.includes(name)),
    valueAt: (path, quantile) => valueAtQuantile(scenario, path, quantile),
    sample: TIPPING_SAMPLE,
  });
  const pessimistic =
    guesses.length === 0
      ? null
      : await pessimisticRow({
          ...means,
          height,
          limit,
          flights: Math.min(PESSIMISTIC_FLIGHTS, plain.outcome.length),
          guesses,
        });
  return { worlds, drivers, measureFirst: rows, help, tipping, pessimistic };
}

/**
 * Inputs most worth asking: those whose uniform numbers in the failed flights lie farthest from the uniform law, whether
 * or not the distance is significant (the bars carry their own intervals). An event counts by how much more often its
 * number stands in the top twentieth, where rare events happen, all its labels together.
 */
function suspects({ drawer }: DecideRequest, plain: FlightColumns, set: SetName): readonly string[] {
  const failed = failedOf(plain);
  const distance = new Map<string, number>();
  for (const { name, path, part } of drawer.drawn) {
    if (part === 'luck') continue;
    const uniforms = drawer.uniforms(name, set, failed);
    const known = distance.get(path) ?? 0;
    distance.set(path, part === 'event' ? known + excessAtTop(uniforms) : Math.max(known, uniformDistance(uniforms)));
  }
  return [...distance]
    .sort(([, a], [, b]) => b - a)
    .slice(0, HELP_INPUTS)
    .map(([path]) => path);
}

const TOP = 0.95;

function excessAtTop(uniforms: Float64Array): number {
  return uniforms.filter((u) => u > TOP).length / uniforms.length - (1 - TOP);
}
