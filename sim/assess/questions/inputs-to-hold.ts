/** What may be asked of the inputs of a scenario: which to hold, on which side they are better, what value a quantile is. */

import type { Parameter } from '../../distributions/distribution.js';
import { quantileOf } from '../../distributions/law.js';
import type { SetName } from '../../draws/draw.js';
import type { Drawer } from '../../draws/drawer.js';
import type { FlightColumns } from '../../flight/record.js';
import { leafPaths } from '../../scenario/definition/leaves.js';
import { inputNamed } from '../../scenario/lookup.js';
import type { Scenario } from '../../scenario/scenario.js';
import { jeffreysLaw } from '../../statistics/beta-law.js';
import type { AskedInput } from './held-input.js';
import { betterSideOf } from './held-input.js';
import type { UnmeasuredInput } from './measure-first.js';

type Drawn = Drawer['drawn'][number];

/** The better side that the definition states; parameters of a distribution other than its middle state none. */
function statedSide(path: string): AskedInput['better'] {
  const entry = leafPaths().find((leaf) => leaf.path === path)?.entry;
  if (entry?.shape === 'chance') return 'low';
  return entry?.shape === 'quantity' ? entry.better : undefined;
}

function asked(path: string, better: AskedInput['better'], isEvent: boolean): AskedInput {
  return { path, ...(better === undefined ? {} : { better }), ...(isEvent ? { isEvent } : {}) };
}

/** An input as something to hold at its median and its better end, from its path. */
export function heldInput(path: string): AskedInput {
  const entry = leafPaths().find((leaf) => leaf.path === path)?.entry;
  return asked(path, statedSide(path), entry?.shape === 'chance');
}

/** The name by which a change holds one unmeasured number without deciding an event. */
function heldName({ name, path, part }: Drawn): string {
  const isChance = part === 'value' && leafPaths().some((leaf) => leaf.path === path && leaf.entry.shape === 'chance');
  return isChance ? `${path}#chance` : name;
}

const MIDDLE_PARAMETERS = ['mean', 'median', 'mode'];

/** Every number that is fixed but not measured, with the better side as stated, or as the flights show it. */
export function unmeasuredAsked(
  drawer: Drawer,
  set: SetName,
  flown: FlightColumns,
): readonly (AskedInput & { readonly name: string })[] {
  const ids = Uint32Array.from({ length: flown.outcome.length }, (_, id) => id);
  return drawer.drawn
    .filter(({ unmeasured }) => unmeasured)
    .map((drawn) => {
      const own = drawn.part !== 'parameter' || MIDDLE_PARAMETERS.some((end) => drawn.name.endsWith(`.${end}`));
      const stated = own ? statedSide(drawn.path) : undefined;
      const better = stated ?? betterSideOf(drawer.uniforms(drawn.name, set, ids), flown.outcome);
      return { ...asked(heldName(drawn), better, false), name: drawn.name };
    });
}

/** The unmeasured numbers with their uniform draws, for the shares of the spread. */
export function unmeasuredDrawn(
  scenario: Scenario,
  drawer: Drawer,
  set: SetName,
  ids: ArrayLike<number>,
): readonly UnmeasuredInput[] {
  return drawer.drawn
    .filter(({ unmeasured }) => unmeasured)
    .map(({ name, path, part }) => {
      const value = inputNamed(scenario, path)?.value;
      const law = value?.form === 'uncertain' ? value.distribution : null;
      const trials =
        law?.family === 'trials' && part === 'value' ? { trials: jeffreysLaw(law.failures, law.trials) } : {};
      // Drawn when they are read: those of all inputs at once would outweigh the flights.
      return {
        path: name,
        get uniforms() {
          return drawer.uniforms(name, set, ids);
        },
        ...trials,
      };
    });
}

/** The value (SI) of a held name at a quantile of its own distribution, other parameters at their medians. */
export function valueAtQuantile(scenario: Scenario, name: string, quantile: number): number {
  const plain = name.replace(/#chance$/, '').replace(/\[.*\]$/, '');
  const input = inputNamed(scenario, plain);
  if (input) return quantileOf(input.value, quantile);
  const dot = plain.lastIndexOf('.');
  const owner = inputNamed(scenario, plain.slice(0, dot))?.value;
  const parameters: Readonly<Record<string, unknown>> = owner?.form === 'uncertain' ? { ...owner.distribution } : {};
  const parameter = parameters[plain.slice(dot + 1)] as Parameter | undefined;
  if (parameter === undefined) throw new Error(`"${name}" is no input and no parameter of one.`);
  return typeof parameter === 'number' ? parameter : quantileOf(parameter, quantile);
}
