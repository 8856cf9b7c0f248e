/** What follows from the inputs of a flight before it begins, for whoever checks a program of their own against it. */
import { createCraft, setCraft } from '../flight/craft.js';
import { densityAt } from '../model/atmosphere.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import type { TracedConstant } from './result.js';

export function constantsThatFollow(inputs: FlightInputs): readonly TracedConstant[] {
  const craft = createCraft();
  setCraft(craft, inputs);
  const { foldedAxial, foldedTransverse, addedAxial, addedTransverse } = craft;
  return [
    constant('ground_density', densityAt(craft.density, 0), 'kg/m^3', 'Density of the air at the ground.'),
    constant('reading_scale', craft.readingScale, '1', 'Metres the altimeter shows for each geopotential metre.'),
    constant('gust_intensity', craft.gustSigma, 'm/s', 'sigma_w of the gusts.'),
    constant('folded_axial_inertia', foldedAxial, 'kg m^2', 'As given, or of a solid cylinder.'),
    constant('folded_transverse_inertia', foldedTransverse, 'kg m^2', 'As given, or of a solid cylinder.'),
    constant('open_axial_inertia', foldedAxial + addedAxial, 'kg m^2', 'As given, or with four arms added.'),
    constant('open_transverse_inertia', foldedTransverse + addedTransverse, 'kg m^2', 'As given, or with four arms.'),
    constant('pack_resistance', craft.resistance, 'ohm', 'Of the whole pack at the temperature of the day.'),
    constant('charge_at_ejection', craft.chargeAtEjection, '1', 'Share of the capacity left after the wait.'),
    constant('standby_current', craft.standbyCurrent, 'A', 'Drawn all through the flight.'),
    constant('rate_gain', craft.rateGain, '1/s', 'Gain of the rate loop after its limit by the motor lag.'),
    constant('damaged', craft.damaged, '', 'Whether the ejection breaks the payload.'),
    constant('picture_lost', craft.pictureLost, '', 'Whether the video sender is too hot at ejection.'),
  ];
}

function constant(name: string, value: number | boolean, unit: string, meaning: string): TracedConstant {
  return { name, value, unit, meaning };
}
