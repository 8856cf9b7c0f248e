/** A flight that the user names is flown in full. */

import { type Answer, ok, refused } from '../basics/answer.js';
import { quantileOf } from '../distributions/law.js';
import type { Change, SetName } from '../draws/draw.js';
import { createDrawer, nominalDraw } from '../draws/drawer.js';
import { flightId, parseFlightId } from '../ensemble/flight-id.js';
import { seekCause } from '../flight/cause.js';
import type { FlightTrace } from '../flight/flight.js';
import { createFlightModel } from '../flight/model.js';
import type { FlightInputs } from '../scenario/definition/definition.js';
import { inputByPath } from '../scenario/lookup.js';
import type { Scenario } from '../scenario/scenario.js';
import { drawnNumbers } from './drawn-numbers.js';
import { keepNoise } from './kept-noise.js';
import type { DrawnNumber, TracedNoise } from './result.js';

export interface TracedFlight {
  /** As the report names it, such as "explore:17@250" or "nominal@250". */
  readonly id: string;
  /** The same as a part of a file name. */
  readonly name: string;
  /** Null for the nominal flight. */
  readonly set: SetName | null;
  readonly flight: number | null;
  readonly height: number;
  /** What was flown. */
  readonly inputs: FlightInputs;
  readonly drawn: readonly DrawnNumber[];
  readonly noise: readonly TracedNoise[];
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
  const draw = isNominal ? nominal : drawer.draw(set, flight);
  // Taken now: the draw is written over where a cause is sought.
  const inputs = structuredClone(draw.inputs);
  const kept = keepNoise(draw.noise);
  const flown = model.trace({ inputs: draw.inputs, noise: kept.noise }, height);
  const noise = kept.read();
  const redraw = (changes: readonly Change[]) => drawer.draw(set, flight, changes);
  const cause = isNominal ? flown.record.cause : seekCause(model, redraw, height, flown.record);
  const uniformOf = (drawn: string) => drawer.uniforms(drawn, set, [flight])[0];
  const id = isNominal ? `nominal@${name.height}` : flightId(name);
  return ok({
    id,
    name: id.replace(':', '-').replace('@', '-at-').concat('m'),
    set: isNominal ? null : set,
    flight: isNominal ? null : flight,
    height,
    inputs,
    drawn: isNominal ? [] : drawnNumbers(scenario, drawer.drawn, uniformOf),
    noise,
    trace: { ...flown, record: { ...flown.record, cause } },
  });
}
