/** The day card's study: the frontier of acceptable heights over two inputs of the day, all other inputs as drawn. */
import { type LimitsRequest, limitsCard } from '../../decision/limits.js';
import type { DayCardResult, DayCell } from '../../result/day-card.js';
import type { LimitsCell } from '../../result/decisions.js';
import type { Warning } from '../../result/result.js';
import { droppedCorrelations, holdInputs } from '../../scenario/hold.js';
import { fixedInput, type Scenario } from '../../scenario/scenario.js';
import { presentVersions } from '../../version.js';
import type { Flyer } from '../flying/flyer.js';
import { detailFor, requirementsOf } from '../requirements-of.js';
import { guessesWarning, inventedWarning } from '../warnings/common-warnings.js';
import { ceilingOf, type DayCardOptions, type DayCardPlan, launchable, planDayCard } from './plan-day-card.js';

export interface DayCardHooks {
  /** Hears how many cells of how many are found. */
  readonly onProgress?: (cells: number, total: number) => void;
  /** Ends the flying early; the cells found until then are kept and the result is marked partial. */
  readonly stop?: AbortSignal;
}

export type DayCard =
  | { readonly status: 'ok'; readonly result: DayCardResult }
  | { readonly status: 'refused'; readonly messages: readonly string[] }
  /** Stopped before a single cell was found. */
  | { readonly status: 'nothing flown' };

/** @param flyerFor a flyer of a scenario that differs from the given one in the two inputs alone */
export async function dayCard(
  scenario: Scenario,
  options: DayCardOptions,
  flyerFor: (scenario: Scenario) => Flyer,
  hooks: DayCardHooks = {},
): Promise<DayCard> {
  const planned = planDayCard(scenario, options);
  if (planned.status === 'refused') return planned;
  const { plan } = planned;
  const ceiling = ceilingOf(scenario, plan);
  const flown = (axis: 'rows' | 'columns') => ({
    path: plan[axis].path,
    ordered: plan[axis].ordered,
    values: ceiling?.axis === axis ? launchable(plan[axis], ceiling.speed) : plan[axis].values,
  });
  const [rows, columns] = [flown('rows'), flown('columns')];
  const requirements = requirementsOf(scenario);
  const total = rows.values.length * columns.values.length;
  let found = 0;
  const request: LimitsRequest = {
    rows,
    columns,
    heights: plan.heights,
    requirements,
    flights: options.flights,
    detail: detailFor(requirements),
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
  const card = await limitsCard(request);
  if (card === null) return { status: 'nothing flown' };
  const cells = plan.rows.values.flatMap((_, row) =>
    plan.columns.values.map((__, column) => cellAt(card.cells, rows.values.length, columns.values.length, row, column)),
  );
  const partial = card.cells.length < total;
  const dropped = droppedCorrelations(scenario, [rows.path, columns.path]);
  return {
    status: 'ok',
    result: {
      kind: 'limits',
      versions: presentVersions(),
      scenario,
      overrides: options.overrides,
      seed: options.seed,
      flights: options.flights,
      partial,
      plannedHeight: fixedInput(scenario, 'plan.throttle_up_height'),
      criteria: requirements.map(({ name, limit }) => ({ name, limit })),
      ...plan,
      cells,
      windCeiling: ceiling,
      allows: cells.some(({ status }) => status === 'fly'),
      dropped,
      flightsFlown: card.flightsFlown,
      warnings: warningsOf(scenario, plan, partial, dropped.length > 0),
    },
  };
}

const NOTHING = { height: null, risk: null, untried: 0, inherited: false, closest: null, flights: 0 } as const;

function cellAt(cells: readonly LimitsCell[], rows: number, columns: number, row: number, column: number): DayCell {
  if (row >= rows || column >= columns) return { row, column, ...NOTHING, status: 'no launch' };
  const found = cells[row * columns + column];
  if (found === undefined) return { row, column, ...NOTHING, status: 'not reached' };
  return { ...found, status: found.height === null ? 'do not fly' : 'fly' };
}

function warningsOf(
  scenario: Scenario,
  { rows, columns }: DayCardPlan,
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
    ...warnings.flatMap(([holds, warning]) => (holds ? [warning] : [])),
    ...inventedWarning(scenario),
    ...guessesWarning(scenario, ''),
  ];
}
