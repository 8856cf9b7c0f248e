/** A warning names each criterion that the planned height is not shown to keep. */
import { flightsToSettle } from '../../statistics/proportion.js';
import { boundedText, flightsInHundred } from '../../statistics/words.js';
import { type Check, percent, roundedUp, sentence, warn } from './finding.js';

export const notKept: Check = ({ judged }) =>
  judged.flatMap(({ criterion: { id, limit, assumed, warning }, found: { risk, verdict } }) => {
    if (warning === null || verdict === 'within') return [];
    const { code, does, did, advice } = warning;
    const many = `${sentence(flightsInHundred(risk.estimate))} ${risk.estimate === 0 ? did : does}`;
    const whose = assumed === true ? ', assumed by the program' : '';
    const settle = flightsToSettle(risk, limit);
    const more =
      settle === null ? '' : ` About ${roundedUp(settle)} flights would settle it, if the risk is as estimated.`;
    return [warn(code ?? id, `${many} (${boundedText(risk)}; limit ${percent(limit)}${whose}).`, `${advice}${more}`)];
  });
