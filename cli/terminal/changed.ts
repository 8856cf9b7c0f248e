/** What the command line changed, for a terminal: under the headline of every answer. */
import { changesSentence } from '../../report/kit/words/changes.js';
import type { ScenarioChange } from '../../sim/scenario/scenario.js';
import { wrapped } from './layout.js';
import type { Paint } from './streams.js';

export function changedLines(changed: readonly ScenarioChange[], paint: Paint): readonly string[] {
  const sentence = changesSentence(changed);
  return sentence === null ? [] : wrapped(sentence).map((line) => paint('bold', line));
}
