/**
 * Turns the unmeasured inputs of a world into independent standard normal scores, and scores into the quantiles at which
 * flights hold the inputs.
 */

import { correlatedGroups } from '../distributions/correlation.js';
import { standardNormalBelow, standardNormalQuantile } from '../distributions/families/normal.js';
import { withinReach } from '../distributions/law.js';
import { placesOf } from '../draws/changes.js';
import { type Change, FLIGHTS_PER_WORLD } from '../draws/draw.js';
import { createDrawer } from '../draws/drawer.js';
import type { Scenario } from '../scenario/scenario.js';
import { solveLower } from '../statistics/triangular-solve.js';

export interface ScoreSpace {
  /** Drawn numbers, one for each score. */
  readonly names: readonly string[];
  /** Scores of worlds as they are drawn. */
  natural(from: number, count: number): readonly Float64Array[];
  /** Uniform numbers, in the order of `names`. */
  uniforms(scores: Float64Array): Float64Array;
  changes(scores: Float64Array): readonly Change[];
}

/**
 * The space of the wanted numbers that flights can hold by themselves. Correlated inputs are wanted all together or not at
 * all, because an input that stays as drawn would lose its tie to the inputs that are moved. Numbers outside the space
 * stay as drawn.
 */
export function scoreSpace(scenario: Scenario, seed: string, wanted: ReadonlySet<string>): ScoreSpace {
  const drawer = createDrawer(scenario, seed);
  const { drawn } = drawer;
  const single = drawn.filter(({ name, path, part }) => part === 'value' && name === path).map(({ path }) => path);
  const groups = correlatedGroups(scenario.correlations, single);
  const left = new Set(
    groups.flatMap(({ paths, factor }) =>
      factor !== null && paths.every((path, i) => wanted.has(path) && factor[i * paths.length + i] > 0) ? [] : paths,
    ),
  );
  const held = drawn.flatMap(({ name, part, unmeasured }, place) => {
    if (!unmeasured || !wanted.has(name) || left.has(name)) return [];
    // The path of a chance would decide its events too.
    const change = [name, `${name}#chance`].find((one) => {
      if (one !== name && part !== 'value') return false;
      const places = placesOf(one, drawn);
      return places.length === 1 && places[0] === place;
    });
    return change === undefined ? [] : [{ name, change }];
  });
  const names = held.map(({ name }) => name);
  const mixed = groups.flatMap(({ paths, factor }) =>
    factor !== null && paths.every((path) => names.includes(path))
      ? [{ places: paths.map((path) => names.indexOf(path)), factor }]
      : [],
  );

  function uniforms(scores: Float64Array): Float64Array {
    const normal = scores.slice();
    for (const { places, factor } of mixed)
      for (const [i, place] of places.entries())
        normal[place] = places.reduce(
          (sum, other, j) => (j <= i ? sum + factor[i * places.length + j] * scores[other] : sum),
          0,
        );
    return normal.map((one) => withinReach(standardNormalBelow(one)));
  }

  return {
    names,
    natural(from, count) {
      const ids = Uint32Array.from({ length: count }, (_, i) => (from + i) * FLIGHTS_PER_WORLD);
      const columns = names.map((name) =>
        drawer.uniforms(name, 'worlds', ids).map((u) => standardNormalQuantile(u, 1 - u)),
      );
      for (const { places, factor } of mixed)
        for (let world = 0; world < count; world++) {
          const own = solveLower(
            factor,
            Float64Array.from(places, (place) => columns[place][world]),
          );
          places.forEach((place, i) => {
            columns[place][world] = own[i];
          });
        }
      return Array.from({ length: count }, (_, world) => Float64Array.from(columns, (column) => column[world]));
    },
    uniforms,
    changes: (scores) => {
      const own = uniforms(scores);
      return held.map(({ change }, i) => ({ path: change, quantile: own[i] }));
    },
  };
}
