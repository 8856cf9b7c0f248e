/** Every input of one flight as it was flown, leaf by leaf of the definition. */
import type { FlightInputs } from '../scenario/definition/definition.js';
import { DIMENSIONS } from '../scenario/definition/dimensions.js';
import { type LeafPath, leafPaths } from '../scenario/definition/leaves.js';
import type { Dimension } from '../scenario/definition/shapes.js';
import type { TracedInput } from './result.js';

type Value<Shape extends TracedInput['shape']> = Extract<TracedInput, { readonly shape: Shape }>['value'];

/** In the definition's order; the entries of a section that the scenario leaves out are absent. */
export function tracedInputs(inputs: FlightInputs): readonly TracedInput[] {
  return leafPaths().flatMap((leaf) => {
    const value = valueAt(inputs, leaf.path);
    return value === undefined ? [] : [tracedInput(leaf, value)];
  });
}

/** Undefined inside a section that is left out. */
function valueAt(inputs: FlightInputs, path: string): unknown {
  return path.split('.').reduce<unknown>((holder, key) => {
    if (holder === null || holder === undefined) return undefined;
    return (holder as Readonly<Record<string, unknown>>)[key];
  }, inputs);
}

function tracedInput({ path, entry }: LeafPath, value: unknown): TracedInput {
  const meaning = entry.doc;
  switch (entry.shape) {
    case 'quantity': {
      const unit = siUnit(entry.dimension);
      return { shape: 'quantity', path, meaning, unit, each: entry.each ?? null, value: value as Value<'quantity'> };
    }
    case 'chance':
      return { shape: 'event', path, meaning, each: entry.each ?? null, value: value as Value<'event'> };
    case 'luck':
      return { shape: 'luck', path, meaning, each: entry.each, value: value as Value<'luck'> };
    case 'table': {
      const columns = entry.columns.map(({ name, dimension }) => ({ name, unit: siUnit(dimension) }));
      return { shape: 'table', path, meaning, columns, value: value as Value<'table'> };
    }
    case 'list':
      return { shape: 'list', path, meaning, value: value as Value<'list'> };
    default:
      return { shape: entry.shape, path, meaning, value: value as Value<'choice'> };
  }
}

/** As print has it; "1" for a pure number. */
export function siUnit(dimension: Dimension): string {
  return DIMENSIONS[dimension].si.replace('degK', 'K').replace('*', ' ');
}
