/** Where it comes down, against the keep-out circles of the site. */
import { KEEP_OUT } from '../../decision/criteria.js';
import { type Check, type Findings, warn } from './finding.js';

/** Told of a circle whose limit is kept: where it is not, the warning of the criterion stands. */
export const insideKeepOut: Check = ({ keepOut, judged }) =>
  keepOut
    .filter(({ inside }) => inside.count > 0)
    .filter((_, index) => keptCircles(judged)[index])
    .map(({ name, inside, soft }) =>
      warn(
        KEEP_OUT,
        `${inside.count} of ${inside.flights} flights come down inside the keep-out circle "${name}", ${soft} of them softly.`,
        'Move the people or the landing point, and show the range safety officer this figure.',
      ),
    );

/** Whether the limit of each circle is kept. */
function keptCircles(judged: Findings['judged']): readonly boolean[] {
  return judged
    .filter(({ criterion }) => criterion.warning?.code === KEEP_OUT)
    .map(({ found }) => found.verdict === 'within');
}
