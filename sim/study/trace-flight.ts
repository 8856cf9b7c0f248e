/** Flies one named flight in full. */
import { createDrawer, nominalDraw } from '../draws/drawer.js';
import { quantileOf } from '../draws/quantile.js';
import type { FlightTrace } from '../flight/flight.js';
import { createFlightModel } from '../flight/model.js';
import type { Scenario } from '../scenario/scenario.js';
import { flightId, parseFlightId } from './flight-id.js';

export interface TracedFlight {
  readonly status: 'ok';
  /** As the report names it, such as "explore:17@250" or "nominal@250". */
  readonly id: string;
  /** The same as a part of a file name. */
  readonly name: string;
  readonly trace: FlightTrace;
}

export type TraceOutcome = TracedFlight | { readonly status: 'refused'; readonly message: string };

const FORMS = 'write set, number and height (explore:17@250), the number alone (17), nominal, or nominal@200';

export function traceFlight(scenario: Scenario, seed: string, text: string): TraceOutcome {
  const nominal = nominalDraw(scenario);
  const planned = nominal.inputs.plan.throttle_up_height;
  const isNominal = /^nominal(@|$)/.test(text.trim());
  const name = parseFlightId(isNominal ? text.trim().replace('nominal', '0') : text, planned);
  if (!name) return { status: 'refused', message: `that names no flight; ${FORMS}.` };
  const ejection = scenario.inputs.find(({ path }) => path === 'ejection.height');
  const highest = ejection ? quantileOf(ejection.value, 1) : Number.POSITIVE_INFINITY;
  if (name.height > highest)
    return { status: 'refused', message: `nothing is ejected as high as ${name.height} m; ${FORMS}.` };

  const draw = isNominal ? nominal : createDrawer(scenario, seed).draw(name.set, name.flight);
  const trace = createFlightModel(scenario).trace(draw, name.height);
  const id = isNominal ? `nominal@${name.height}` : flightId(name);
  return { status: 'ok', id, name: id.replace(':', '-').replace('@', '-at-').concat('m'), trace };
}
