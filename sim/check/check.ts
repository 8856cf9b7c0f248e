/** All that `check` says of a scenario: whether it flies, what is implausible, what is open, and the hand calculation. */

import { quantileOf } from '../distributions/law.js';
import { nominalDraw } from '../draws/drawer.js';
import { createFlightModel } from '../flight/model.js';
import { inputByPath } from '../scenario/lookup.js';
import { type OpenDecision, openDecisions, withStandIns } from '../scenario/open-decisions.js';
import type { Scenario } from '../scenario/scenario.js';
import { flyAnswer } from './fly-answer.js';
import { handCalculation } from './hand-calculation.js';
import { ordinaryDoubts } from './ordinary-flight.js';
import { doubtsOf } from './plausibility.js';
import type { Doubt, FlyAnswer, HandCalculation } from './result.js';

export interface Checked {
  readonly answer: FlyAnswer;
  readonly doubts: readonly Doubt[];
  readonly open: readonly OpenDecision[];
  /** Height at which the simulated flight throttles up where none is planned, m; else null. */
  readonly standInHeight: number | null;
  readonly hand: HandCalculation;
}

/** Share of the height of ejection at which the simulated flight throttles up while no height is planned. */
const STAND_IN_SHARE = 0.5;

/** Stands in for a limit that is still to decide: no flight and no hand figure depends on it. */
const NO_LIMIT = 0.5;

/** @param inFile what the file says without the changes of the command line */
export function checkScenario(scenario: Scenario, inFile: Scenario): Checked {
  const open = openDecisions(scenario);
  const planned = inputByPath(scenario, 'plan.throttle_up_height') !== null;
  const ejection = inputByPath(scenario, 'ejection.height');
  const standInHeight = planned || ejection === null ? null : STAND_IN_SHARE * quantileOf(ejection.value, 0.5);
  const whole = withStandIns(scenario, {
    ...(standInHeight === null ? {} : { 'plan.throttle_up_height': standInHeight }),
    'criteria.ground_impact_risk': NO_LIMIT,
  });
  const nominal = nominalDraw(whole);
  const model = createFlightModel(whole);
  const answer = flyAnswer(nominal.inputs);
  const ordinary = answer.flies && planned ? ordinaryDoubts(nominal, model) : [];
  return {
    answer,
    doubts: [...doubtsOf({ inputs: nominal.inputs, planned, scenario: whole, inFile }), ...ordinary],
    open,
    standInHeight,
    hand: handCalculation(whole, nominal, model, planned),
  };
}
