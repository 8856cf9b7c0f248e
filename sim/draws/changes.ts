/** Changes: which of a flight's uniform numbers a change of a given name sets. */
import { leafPaths } from '../scenario/definition/leaves.js';
import type { DrawnInput } from './inputs.js';

/**
 * Places among the drawn numbers that a change of this name sets.
 *
 * - The path of a quantity sets its number, with labels all of them; the path of luck sets all its numbers.
 * - The path of a chance sets the chance and its events, each to that quantile of its own distribution. An event is
 *   a number 0 or 1, so at quantile q it happens only where its chance is over 1 - q: the median flight has no
 *   event, and a low quantile is the better end, unless the chance is nearly 1.
 * - "path#event" sets the events alone, "path#chance" the chance alone, which leaves the events to luck: thus a
 *   pessimistic guess of a chance is held without deciding the event.
 * - Any name of a drawn number ("pilot.reaction.median", "wind.speed", "rotors.dead#event[rotor 1]") sets that number.
 *   The parameters of a distribution stay as drawn when the input's own path is set.
 *
 * None where the scenario has the input at a fixed value or leaves it out. Throws where the definition has no such
 * name.
 */
export function placesOf(name: string, drawn: readonly DrawnInput[]): readonly number[] {
  const chance = name.endsWith('#chance') ? name.slice(0, -'#chance'.length) : null;
  const places = drawn.flatMap((input, place) => {
    if (chance !== null) return input.name === chance && input.part === 'value' ? [place] : [];
    const whole = input.path === name && input.part !== 'parameter';
    return whole || input.name === name || input.name.startsWith(`${name}[`) ? [place] : [];
  });
  if (places.length === 0 && !leafPaths().some(({ path }) => path === name || isPartOf(path, name)))
    throw new Error(`A change names "${name}", which is no input of the definition.`);
  return places;
}

function isPartOf(path: string, name: string): boolean {
  return name.startsWith(path) && '.#['.includes(name.charAt(path.length));
}
