/** Hands an assessment over: files, stdout, and the exit code that says the verdict. */
import { flightsCsv } from '../../../sim/assess/csv.js';
import type { AssessResult } from '../../../sim/assess/result.js';
import { deliver } from '../../outputs/deliver.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { labelled } from '../../terminal/layout.js';
import { assessPage } from './page.js';
import { assessSummary, quietLines } from './summary.js';

export interface AssessDelivery {
  readonly json: boolean;
  readonly quiet: boolean;
  /** The command that repeats it; the command that goes on with it, where it was interrupted. */
  readonly repeat: string;
  readonly goOn?: string | undefined;
}

export async function deliverAssessment(
  result: AssessResult,
  paths: readonly string[],
  { json, quiet, repeat, goOn }: AssessDelivery,
): Promise<CommandEnd> {
  const next = goOn === undefined ? labelled('Again:', repeat) : labelled('Go on:', goOn);
  const delivered = await deliver({
    result,
    paths,
    json,
    page: assessPage,
    csv: flightsCsv,
    lines: (_result, paint, files) =>
      quiet ? quietLines(result, paint) : [...assessSummary(result, paint), ...files, ...next],
  });
  if (delivered.status === 'refused') return delivered;
  if (result.partial) return EXIT.interrupted;
  const met = result.overall === 'within' && (result.assurance?.met ?? true);
  return met ? EXIT.done : EXIT.notWithin;
}
