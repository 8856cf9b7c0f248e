/**
 * The study of a day card finds the frontier of acceptable heights over two inputs of the day, all other inputs as
 * drawn.
 */

import { ok } from '../basics/answer.js';
import { presentVersions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import { countGuesses, guessesWarning, inventedWarning } from '../check/scenario-warnings.js';
import { type Criterion, named } from '../decision/criteria.js';
import type { Flyer } from '../ensemble/flyer.js';
import { NOTHING_FLOWN, type StudyAnswer } from '../ensemble/study-answer.js';
import { hazardWarnings, perfectWarning } from '../scenario/hazards.js';
import { droppedCorrelations, holdInputs } from '../scenario/hold.js';
import { fixedInput } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';
import { ceilingOf, type LimitsOptions, type LimitsPlan, launchable, planLimits } from './plan.js';
import type { CardCell, LimitsResult, WalkedCell } from './result.js';
import { type WalkRequest, walkCard } from './walk.js';

export interface LimitsHooks {
  /** Hears how many cells of how many are found. */
  readonly onProgress?: (cells: number, total: number) => void;
  /** Ends the flying early; the cells found until then are kept and the result is marked partial. */
  readonly stop?: AbortSignal;
}

export interface LimitsMeans {
  /** A flyer of a scenario that differs from the given one in the two inputs alone. */
  readonly flyerFor: (scenario: Scenario) => Flyer;
  /** What must hold in each cell. */
  readonly criteria: readonly Criterion[];
}

export async function findLimits(
  scenario: Scenario,
  options: LimitsOptions,
  { flyerFor, criteria }: LimitsMeans,
  hooks: LimitsHooks = {},
): Promise<StudyAnswer<LimitsResult>> {
  const planned = planLimits(scenario, options, criteria);
  if (planned.status === 'refused') return planned;
  const plan = planned.value;
  const ceiling = ceilingOf(scenario, plan);
  const flown = (axis: 'rows' | 'columns') => ({
    path: plan[axis].path,
    ordered: plan[axis].ordered,
    values: ceiling?.axis === axis ? launchable(plan[axis], ceiling.speed) : plan[axis].values,
  });
  const [rows, columns] = [flown('rows'), flown('columns')];
  const total = rows.values.length * columns.values.length;
  let found = 0;
  const request: WalkRequest = {
    rows,
    columns,
    heights: plan.heights,
    criteria,
    flights: options.flights,
    flyerFor: async (row, column) =>
      flyerFor(
        holdInputs(scenario, [
          { path: rows.path, value: rows.values[row] },
          { path: columns.path, value: columns.values[column] },
        ]),
      ),
    onCell: () => hooks.onProgress?.(++found, total),
    ...(hooks.stop ? { stop: hooks.stop } : {}),
  };
  const card = await walkCard(request);
  if (card === null) return NOTHING_FLOWN;
  const cells = plan.rows.values.flatMap((_, row) =>
    plan.columns.values.map((__, column) => cellAt(card.cells, rows.values.length, columns.values.length, row, column)),
  );
  const partial = card.cells.length < total;
  const dropped = droppedCorrelations(scenario, [rows.path, columns.path]);
  return ok({
    kind: 'limits',
    versions: presentVersions(),
    scenario,
    overrides: options.overrides,
    seed: options.seed,
    flights: options.flights,
    partial,
    plannedHeight: fixedInput(scenario, 'plan.throttle_up_height'),
    criteria: criteria.map(named),
    ...plan,
    cells,
    windCeiling: ceiling,
    anyShown: cells.some(({ status }) => status === 'height shown'),
    dropped,
    flightsFlown: card.flightsFlown,
    ...countGuesses(scenario),
    warnings: warningsOf(scenario, plan, partial, dropped.length > 0),
  });
}

const NOTHING = { height: null, risk: null, untried: 0, inherited: false, closest: null, flights: 0 } as const;

function cellAt(cells: readonly WalkedCell[], rows: number, columns: number, row: number, column: number): CardCell {
  if (row >= rows || column >= columns) return { row, column, ...NOTHING, status: 'no launch' };
  const found = cells[row * columns + column];
  if (found === undefined) return { row, column, ...NOTHING, status: 'not reached' };
  return { ...found, status: found.height === null ? 'do not fly' : 'height shown' };
}

function warningsOf(
  scenario: Scenario,
  { rows, columns }: LimitsPlan,
  partial: boolean,
  dropped: boolean,
): readonly Warning[] {
  const unordered = [rows, columns].filter(({ ordered }) => !ordered).map(({ path }) => path);
  const warnings: readonly (readonly [boolean, Warning])[] = [
    [
      partial,
      {
        code: 'partial',
        text: 'The study was interrupted: cells that were not reached are empty.',
        advice: 'Run it to the end before you use the card.',
      },
    ],
    [
      unordered.length > 0,
      {
        code: 'order not known',
        text: `It is not known which values of ${unordered.join(' and ')} are the harder ones.`,
        advice: 'Heights need not rise along it; between two values take the higher of their heights.',
      },
    ],
    [
      dropped,
      {
        code: 'correlation dropped',
        text: 'A rank correlation of the scenario with an input of the card does not hold here.',
        advice: 'Its partner is drawn from its whole distribution in every cell, whatever the value on the card.',
      },
    ],
  ];
  return [
    ...hazardWarnings(scenario),
    ...perfectWarning(scenario),
    ...warnings.flatMap(([holds, warning]) => (holds ? [warning] : [])),
    ...inventedWarning(scenario),
    ...guessesWarning(scenario, ''),
  ];
}
