/** Where it comes down, against the circles of the site. */
import { flightsInHundred, proportionText } from '../../statistics/words.js';
import { type Check, percent, sentence, warn } from './finding.js';

export const outsideCircle: Check = ({ criteria }) => {
  const circle = criteria.find(({ name }) => name !== 'ground impact');
  if (circle === undefined || circle.verdict === 'within') return [];
  const { risk, limit } = circle;
  return [
    warn(
      'outside the circle',
      `${sentence(flightsInHundred(risk.estimate))} ${risk.estimate === 0 ? 'came' : 'come'} down outside the recovery circle (${proportionText(risk)}; limit ${percent(limit)}).`,
      'Move the landing point or the circle, plan a lower wind, or fly more flights where it is only not shown.',
    ),
  ];
};

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
