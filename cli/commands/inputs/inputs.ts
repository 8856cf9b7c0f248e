/** The command `inputs`: looks up what may stand in a scenario, how it is measured and what is usual. */

import { refused } from '../../../sim/basics/answer.js';
import { nearestName } from '../../../sim/basics/nearest-name.js';
import { type Command, type Given, givenFlag } from '../../arguments/command.js';
import { JSON_INPUTS } from '../../arguments/options.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { paintFor, print } from '../../terminal/streams.js';

export const inputs: Command = {
  name: 'inputs',
  argument: { name: 'word', doc: 'Part of a path or of a meaning; without it every input in short' },
  summary: 'Looks up the inputs: unit, meaning, standard, how each is measured, what is usual',
  options: { json: JSON_INPUTS },
  examples: [
    ['fallmargin inputs drag', 'every input about drag, in full'],
    ['fallmargin inputs can.mass', 'one of them'],
  ],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const word = typeof given.word === 'string' ? given.word.trim() : '';
  const { inputGuide, settablePaths } = await import('../../../sim/scenario/input-guide.js');
  const entries = inputGuide(word);
  if (entries.length === 0) {
    const names = settablePaths().flatMap((path) => [path, ...path.split(/[._]/)]);
    const nearest = nearestName(word, [...new Set(names)]);
    const meant = nearest === null ? 'fallmargin inputs lists all.' : `Did you mean "${nearest}"?`;
    return refused(`No input has "${word}" in its path or meaning. ${meant}`);
  }
  if (givenFlag(given, 'json')) print(JSON.stringify({ kind: 'inputs', inputs: entries }));
  else {
    const { inputsSummary } = await import('./summary.js');
    print(inputsSummary(entries, word, paintFor(process.stdout)).join('\n'));
  }
  return EXIT.done;
}
