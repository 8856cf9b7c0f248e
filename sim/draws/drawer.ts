/** A drawer gives any flight of any set its draw, a function of scenario, seed, set and number of the flight alone. */

import { correlatedGroups, mix } from '../distributions/correlation.js';
import { withinReach } from '../distributions/law.js';
import type { Scenario } from '../scenario/scenario.js';
import { placesOf } from './changes.js';
import { type Change, FLIGHTS_PER_WORLD, type FlightDraw, type SetName } from './draw.js';
import { createInputWriter, type DrawnInput } from './inputs.js';
import { createNoise, NOISE_NAMES } from './noise.js';
import { createStream, type Stream } from './streams.js';

export interface Drawer {
  /** What a flight draws, in the definition's order: the names that `uniforms` knows. Fixed inputs draw nothing. */
  readonly drawn: readonly DrawnInput[];
  /**
   * The draw of flight `id`, from 0. The object and everything in it is reused by the next call: copy what you keep.
   * Cheapest in ascending order; any order gives the same draws. For the names that changes may have see `placesOf`
   * and NOISE_NAMES; held noise is zero, held outages never come, whatever the quantile.
   */
  draw(set: SetName, id: number, changes?: readonly Change[]): FlightDraw;
  /** The uniform number (after correlation) from which each flight made the drawn input of this name. */
  uniforms(name: string, set: SetName, ids: ArrayLike<number>): Float64Array;
}

export function createDrawer(scenario: Scenario, seed: string): Drawer {
  const { inputs, drawn, uniforms, write } = createInputWriter(scenario);
  const groups = mixedGroups(scenario, drawn);
  const { noise, start } = createNoise(seed);
  const streams = new Map<SetName, readonly Stream[]>();
  const places = new Map<string, readonly number[]>();
  const still = new Set<string>();
  const result: FlightDraw = { inputs, noise };

  function streamsOf(set: SetName): readonly Stream[] {
    let found = streams.get(set);
    if (!found) {
      found = drawn.map(({ name }) => createStream(seed, set, name));
      streams.set(set, found);
    }
    return found;
  }

  function drawPlaces(set: SetName, id: number, wanted: readonly number[]): void {
    const ofSet = streamsOf(set);
    const world = set === 'worlds' ? Math.floor(id / FLIGHTS_PER_WORLD) : id;
    for (const place of wanted) uniforms[place] = ofSet[place].value(drawn[place].unmeasured ? world : id);
  }

  function hold({ path, quantile }: Change): void {
    if (!(quantile >= 0 && quantile <= 1)) throw new RangeError(`Quantile ${quantile} of ${path} is not from 0 to 1.`);
    if ((NOISE_NAMES as readonly string[]).includes(path)) {
      still.add(path);
      return;
    }
    let held = places.get(path);
    if (!held) {
      held = placesOf(path, drawn);
      places.set(path, held);
    }
    for (const place of held) uniforms[place] = withinReach(quantile);
  }

  const everyPlace = drawn.map((_, place) => place);
  return {
    drawn,
    draw(set, id, changes) {
      if (!(Number.isInteger(id) && id >= 0)) throw new RangeError(`There is no flight ${id}.`);
      drawPlaces(set, id, everyPlace);
      for (const group of groups) mix(group.factor, group.places, uniforms);
      still.clear();
      if (changes) for (const change of changes) hold(change);
      write();
      start(set, id, still);
      return result;
    },
    uniforms(name, set, ids) {
      const place = drawn.findIndex((input) => input.name === name);
      if (place === -1) throw new Error(`No flight draws "${name}".`);
      const group = groups.find((one) => one.places.includes(place));
      const wanted = group?.places ?? [place];
      const found = new Float64Array(ids.length);
      for (let index = 0; index < ids.length; index++) {
        drawPlaces(set, ids[index], wanted);
        if (group) mix(group.factor, group.places, uniforms);
        found[index] = uniforms[place];
      }
      return found;
    },
  };
}

/**
 * The flight in which nothing is left to chance: every input, unmeasured parameter and number of luck at its median,
 * no event (unless its chance is over one half), no noise, no outage. A new object each time.
 */
export function nominalDraw(scenario: Scenario): FlightDraw {
  const { inputs, write } = createInputWriter(scenario);
  write();
  const { noise, start } = createNoise('');
  start('explore', 0, new Set(NOISE_NAMES));
  return { inputs, noise };
}

function mixedGroups(scenario: Scenario, drawn: readonly DrawnInput[]) {
  const single = drawn.filter(({ name, path, part }) => part === 'value' && name === path).map(({ path }) => path);
  return correlatedGroups(scenario.correlations, single).map(({ paths, factor }) => {
    const members = paths.map((path) => drawn.findIndex(({ name }) => name === path));
    if (!factor) throw new Error(`No joint distribution has these rank correlations: ${paths.join(', ')}.`);
    if (new Set(members.map((place) => drawn[place].unmeasured)).size > 1)
      throw new Error(`Correlated inputs are of two kinds: ${paths.join(', ')}.`);
    return { factor, places: members };
  });
}
