/** Options that hold a quantity with its unit. */
import { type Answer, ok, refused } from '../../sim/basics/answer.js';
import type { Dimension } from '../../sim/scenario/definition/shapes.js';

/** The quantity in SI that an option holds; refused with what to write instead. */
export async function parseQuantityOf(option: string, written: string, dimension: Dimension): Promise<Answer<number>> {
  const { parseQuantity } = await import('../../sim/scenario/units.js');
  const parsed = parseQuantity(written, dimension);
  return parsed.status === 'ok'
    ? ok(parsed.value)
    : refused(`${option} is "${written}", ${parsed.why}; expected ${parsed.expected}.`);
}
