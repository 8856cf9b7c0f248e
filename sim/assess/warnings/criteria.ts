/** A warning names each criterion that the planned height is not shown to keep. */
import { flightsInHundred, proportionText } from '../../statistics/words.js';
import { type Check, percent, sentence, warn } from './finding.js';

export const notKept: Check = ({ judged }) =>
  judged.flatMap(({ criterion: { id, limit, warning }, found: { risk, verdict } }) => {
    if (warning === null || verdict === 'within') return [];
    const { does, did, advice } = warning;
    const many = `${sentence(flightsInHundred(risk.estimate))} ${risk.estimate === 0 ? did : does}`;
    return [warn(id, `${many} (${proportionText(risk)}; limit ${percent(limit)}).`, advice)];
  });
