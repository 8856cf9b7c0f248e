/** From a traced flight to the result: plain data, null for what is no number. */
import { presentVersions } from '../basics/versions.js';
import { CAUSES, COLUMN_NAMES, COLUMNS, type ColumnName, OUTCOMES } from '../flight/record.js';
import { scenarioWarnings } from '../scenario/hazards.js';
import type { Scenario } from '../scenario/scenario.js';
import { constantsThatFollow } from './constants-that-follow.js';
import type { TraceResult } from './result.js';
import type { TracedFlight } from './trace-flight.js';
import { tracedInputs } from './traced-inputs.js';

/** Significant digits of the history: far more than any step is worth. */
const DIGITS = 9;

export interface Asked {
  readonly scenario: Scenario;
  readonly overrides: readonly string[];
  readonly seed: string;
}

export function traceResult({ scenario, overrides, seed }: Asked, traced: TracedFlight): TraceResult {
  const { id, set, flight, height, inputs, drawn, noise, trace } = traced;
  const { record, events, phases, columns, rows } = trace;
  const history = columns.map((name, column) => [name, rows.map((row) => rounded(row[column]))]);
  return {
    kind: 'trace',
    versions: presentVersions(),
    scenario,
    overrides,
    warnings: scenarioWarnings(scenario),
    seed,
    id,
    set,
    flight,
    height,
    inputs: tracedInputs(inputs),
    drawn,
    noise,
    constants: constantsThatFollow(inputs),
    outcome: OUTCOMES[record.outcome],
    cause: CAUSES[record.cause],
    events: events.map((event) => ({ ...event, height: finite(event.height) })),
    phases,
    record: recordOf(record.values),
    recordMeaning: COLUMNS,
    history: Object.fromEntries(history),
  };
}

function recordOf(values: ArrayLike<number>): Readonly<Record<ColumnName, number | null>> {
  const named = COLUMN_NAMES.map((name, column) => [name, finite(values[column])]);
  return Object.fromEntries(named) as Record<ColumnName, number | null>;
}

function finite(value: number): number | null {
  return Number.isFinite(value) ? value : null;
}

function rounded(value: number): number | null {
  return Number.isFinite(value) ? Number(value.toPrecision(DIGITS)) : null;
}
