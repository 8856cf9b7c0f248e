/** What the warnings look at, and how one is written. */

import type { Warning } from '../../basics/warning.js';
import type { Criterion } from '../../decision/criteria.js';
import type { CriterionFigure } from '../../decision/result.js';
import type { FlightInputs } from '../../scenario/definition/definition.js';
import type { Scenario } from '../../scenario/scenario.js';
import type { CauseRow, Decisions } from '../decisions.js';
import type { Phase } from '../progress.js';
import type { Footprint, HeightPoint } from '../result.js';

export interface Findings {
  readonly scenario: Scenario;
  readonly inputs: FlightInputs;
  readonly flights: number;
  /** The phase in which the study was stopped from outside. */
  readonly interrupted: Phase | null;
  /** What was found of it at the planned height. */
  readonly groundImpact: CriterionFigure;
  /** Flights that would settle the verdict on ground impact. */
  readonly flightsToSettle: number | null;
  readonly numerical: number;
  readonly curve: readonly HeightPoint[];
  /** Causes of the failures at the planned height. */
  readonly causes: readonly CauseRow[];
  /** Every criterion, with what was found of it at the planned height. */
  readonly judged: readonly { readonly criterion: Criterion; readonly found: CriterionFigure }[];
  readonly keepOut: Footprint['keepOut'];
  readonly decisions: Decisions;
}

export type Check = (findings: Findings) => readonly Warning[];

export function warn(code: string, text: string, advice: string): Warning {
  return { code, text, advice };
}

/** Two digits say how large; more would pretend to know. */
export function percent(share: number): string {
  return `${Number((100 * share).toPrecision(2))} %`;
}

/** Two leading digits, upwards. */
export function roundedUp(value: number): number {
  const unit = 10 ** Math.max(0, Math.floor(Math.log10(value)) - 1);
  return Math.ceil(value / unit) * unit;
}

export function sentence(text: string): string {
  return text[0].toUpperCase() + text.slice(1);
}
