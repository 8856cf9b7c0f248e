/** The first answer: whether it flies at all, from thrust and weight with every input at its median. */

import { discArea, hoverWashLoss } from '../model/rotors.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import { handNumbers } from './hand-numbers.js';
import type { FlyAnswer } from './result.js';

/** A thrust to weight under this leaves little to stop a fall with (common practice, no source). */
export const LITTLE = 1.5;

/**
 * Thrust to weight at full throttle on the site, after the wait on the pad, 1: the hand figure, less what the wash of the
 * rotors takes from the arms (hover, `hoverWashLoss`) where the thrust was measured without them. It flies above 1.
 */
export function flyAnswer(inputs: FlightInputs): FlyAnswer {
  const { can, rotors } = inputs;
  const { thrustToWeight: bare } = handNumbers(inputs);
  const armArea = can.drag_factor * can.arm_drag_area;
  const lost =
    rotors.thrust_measured === 'bare' ? hoverWashLoss(can.wash_share, armArea, discArea(rotors.diameter)) : 0;
  const thrustToWeight = bare * Math.max(0, 1 - lost);
  const flies = thrustToWeight > 1;
  return { flies, thrustToWeight, bareThrustToWeight: bare, sentence: sentence(flies, thrustToWeight) };
}

function sentence(flies: boolean, thrustToWeight: number): string {
  const figure = figureOf(thrustToWeight);
  if (!flies) return `It does not fly: ${figure} of the weight; more than 1 is needed, ${LITTLE} is little.`;
  const little = thrustToWeight < LITTLE ? `; ${LITTLE} is little` : '';
  return `It flies: thrust is ${figure} of the weight on site${little}.`;
}

/** Two decimals, and never "1.00" for what is under or over 1. */
function figureOf(thrustToWeight: number): string {
  const text = thrustToWeight.toFixed(2);
  return text === '1.00' && thrustToWeight !== 1 ? String(Number(thrustToWeight.toPrecision(6))) : text;
}
