/** Where it comes down, against the keep-out circles of the site. */
import { type Check, warn } from './finding.js';

export const insideKeepOut: Check = ({ keepOut }) =>
  keepOut
    .filter(({ inside }) => inside.count > 0)
    .map(({ name, inside }) =>
      warn(
        'keep-out',
        `${inside.count} of ${inside.flights} flights come down inside the keep-out circle "${name}".`,
        'Move the people or the landing point, and show the range safety officer this figure.',
      ),
    );
