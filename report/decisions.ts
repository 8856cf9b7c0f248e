/** What a study may have decided beyond its curve: each piece is shown where it is there, and left out where not. */
import type {
  DriversResult,
  HeightDecision,
  HelpResult,
  MeasureRow,
  PessimisticResult,
  StoppingNote,
  TippingResult,
  WorldsResult,
} from '../sim/result/decisions.js';
import type { AssessResult } from '../sim/result/result.js';

export interface Decisions {
  readonly heightDecision?: HeightDecision | null | undefined;
  readonly worlds?: WorldsResult | null | undefined;
  readonly drivers?: DriversResult | null | undefined;
  readonly help?: HelpResult | null | undefined;
  readonly measureFirst?: readonly MeasureRow[] | null | undefined;
  readonly tipping?: TippingResult | null | undefined;
  readonly pessimistic?: PessimisticResult | null | undefined;
  readonly stopping?: StoppingNote | null | undefined;
}

export type ReportedResult = AssessResult & Decisions;
