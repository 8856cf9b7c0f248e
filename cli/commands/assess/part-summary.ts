/** A part of a study for a terminal: what was flown of it, and what to do next. */

import { shareOf } from '../../../sim/assess/parts/fly-part.js';
import { type PartNumber, partName } from '../../../sim/assess/parts/part.js';
import type { AssessOptions } from '../../../sim/assess/plan.js';
import { labelled, wrapped } from '../../terminal/layout.js';

/**
 * @param whole whether all of it was flown
 * @param saved the part's file; null where nothing was flown before it was stopped
 * @param goOn the command that goes on from a file
 */
export function partSummary(
  part: PartNumber,
  { flights }: AssessOptions,
  whole: boolean,
  saved: string | null,
  goOn: (path: string) => string,
  quiet: boolean,
): readonly string[] {
  if (saved === null) return ['Stopped before the first flight was flown; nothing was written.'];
  if (!whole)
    return [
      ...wrapped(`Part ${partName(part)} is not whole; what was flown is kept in ${saved}.`),
      ...labelled('Go on:', goOn(saved)),
    ];
  if (quiet) return [`Written: ${saved}`];
  const { from, to } = shareOf(part, flights);
  const own = to > from ? `flights ${from} to ${to - 1}` : 'no flight';
  return [
    ...wrapped(`Part ${partName(part)} is whole: ${own} of ${flights}, wherever the study may look.`),
    ...labelled('Written:', saved),
    ...labelled('Next:', `fallmargin merge ${saved.replace(/\d+(?=-of-\d+\.part$)/, '*')}`),
  ];
}
