/** These warnings say where the flights do not bear what is read from them. */
import { flightsForBound } from '../../statistics/proportion.js';
import { type Check, percent, roundedUp, warn } from './finding.js';

export const partial: Check = ({ interrupted, flights }) => {
  if (interrupted === null) return [];
  const text =
    interrupted === 'heights asked for'
      ? `The study was interrupted: all figures speak of the ${flights} flights flown.`
      : `The study was interrupted in "${interrupted}": what that part and the later ones would say is missing.`;
  return [warn('partial', text, 'Run it to the end before you decide anything.')];
};

export const tooFewFlights: Check = ({ flights, groundImpact: { limit } }) => {
  const least = flightsForBound(0, limit);
  if (least === null || flights >= least) return [];
  return [
    warn(
      'too few flights',
      `${flights} flights cannot show a risk of ${percent(limit)}, even if none fails.`,
      `Fly at least ${least} flights (--flights); ten times as many give a useful figure.`,
    ),
  ];
};

/** Failures under which causes are hearsay and nothing is asked of the inputs. */
const FEW_FAILURES = 20;

export const fewFailures: Check = ({ groundImpact: { risk } }) => {
  if (risk.count === 0 || risk.count >= FEW_FAILURES) return [];
  const enough = roundedUp(FEW_FAILURES / risk.estimate);
  return [
    warn(
      'few failures',
      `Only ${risk.count} of ${risk.flights} flights failed: too few to say what goes wrong most and what would help.`,
      `About ${enough} flights would do (--flights ${enough}).`,
    ),
  ];
};

export const wideInterval: Check = ({ groundImpact: { verdict }, flightsToSettle, flights }) => {
  if (verdict !== 'not shown') return [];
  const advice =
    flightsToSettle === null
      ? 'The risk is too near the limit to be told apart; change the plan rather than the number of flights.'
      : `About ${flightsToSettle} flights would settle it if the risk is as estimated (--flights ${roundedUp(flightsToSettle)}). Flying on until the answer pleases is no evidence: choose the number once.`;
  return [warn('wide interval', `The interval of ${flights} flights reaches across the limit.`, advice)];
};

export const notNarrowEnough: Check = ({ decisions: { stopping } }) => {
  if (stopping?.reason !== 'most flights reached') return [];
  return [
    warn(
      'not narrow enough',
      `After ${stopping.flights} flights the half-width is ${percent(stopping.reached)}; ${percent(stopping.asked)} was asked for.`,
      'No more can be flown in one study: take the figure as it is, or ask for a wider interval (--until).',
    ),
  ];
};

export const numericalFailures: Check = ({ numerical, flights }) =>
  numerical > 0
    ? [
        warn(
          'numerical',
          `${numerical} of ${flights} flights at the planned height diverged numerically and count as not soft.`,
          'Look at one with `fallmargin trace`; an input far outside the ordinary is the usual reason.',
        ),
      ]
    : [];

export const edgeOfGrid: Check = ({ curve, inputs, decisions: { heightDecision } }) => {
  if (curve.length < 2) return [];
  const planned = inputs.plan.throttle_up_height;
  const [lowest, highest] = [curve[0].height, curve[curve.length - 1].height];
  const lowestServes =
    heightDecision?.latest === lowest
      ? [
          warn(
            'edge of the grid',
            `The ${lowest} m that serve at the latest are the lowest height that was looked at: a lower one may serve too.`,
            'Plan a lower height (plan.throttle_up_height) to have lower ones looked at.',
          ),
        ]
      : [];
  if (planned !== lowest && planned !== highest) return lowestServes;
  return [
    ...lowestServes,
    warn(
      'edge of the grid',
      `The planned height of ${planned} m is the ${planned === lowest ? 'lowest' : 'highest'} of the heights flown.`,
      'Fly heights on both sides of it (--heights), so that the curve shows whether to go up or down.',
    ),
  ];
};
