/** A flight that the user names is flown in full. */

import { type Answer, ok, refused } from '../basics/answer.js';
import { quantileOf } from '../distributions/law.js';
import type { Change } from '../draws/draw.js';
import { createDrawer, nominalDraw } from '../draws/drawer.js';
import { flightId, parseFlightId } from '../ensemble/flight-id.js';
import { seekCause } from '../flight/cause.js';
import type { FlightTrace } from '../flight/flight.js';
import { createFlightModel } from '../flight/model.js';
import { inputByPath } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';

export interface TracedFlight {
  /** As the report names it, such as "explore:17@250" or "nominal@250". */
  readonly id: string;
  /** The same as a part of a file name. */
  readonly name: string;
  readonly trace: FlightTrace;
}

const FORMS = 'write set, number and height (explore:17@250), the number alone (17), nominal, or nominal@200';

export function traceFlight(scenario: Scenario, seed: string, text: string): Answer<TracedFlight> {
  const nominal = nominalDraw(scenario);
  const planned = nominal.inputs.plan.throttle_up_height;
  const isNominal = /^nominal(@|$)/.test(text.trim());
  const name = parseFlightId(isNominal ? text.trim().replace('nominal', '0') : text, planned);
  if (!name) return refused(`that names no flight; ${FORMS}.`);
  const ejection = inputByPath(scenario, 'ejection.height');
  const highest = ejection ? quantileOf(ejection.value, 1) : Number.POSITIVE_INFINITY;
  if (name.height > highest) return refused(`nothing is ejected as high as ${name.height} m; ${FORMS}.`);

  const model = createFlightModel(scenario);
  const drawer = createDrawer(scenario, seed);
  const { set, flight, height } = name;
  const flown = model.trace(isNominal ? nominal : drawer.draw(set, flight), height);
  const redraw = (changes: readonly Change[]) => drawer.draw(set, flight, changes);
  const cause = isNominal ? flown.record.cause : seekCause(model, redraw, height, flown.record);
  const trace = { ...flown, record: { ...flown.record, cause } };
  const id = isNominal ? `nominal@${name.height}` : flightId(name);
  return ok({ id, name: id.replace(':', '-').replace('@', '-at-').concat('m'), trace });
}
