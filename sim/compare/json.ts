/** Reads a comparison back from JSON. */
import { resultReader } from '../basics/read-result.js';
import { decodeBytes } from '../ensemble/raw-columns.js';
import { wrongFlights } from '../ensemble/wrong-flights.js';
import type { CompareResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseComparison = resultReader<CompareResult>(
  { kind: 'compare', called: 'comparison' },
  schema,
  contradiction,
);

/** Both designs hold as many flights as there are pairs. */
function contradiction({ comparisons, flights }: CompareResult): string | null {
  const all = comparisons.flatMap((one, index) => {
    if (one.status !== 'compared') return [];
    const pairs = index === 0 ? flights : decodeBytes(one.raw.a.outcome).length;
    return (['a', 'b'] as const).map((design) =>
      wrongFlights(`comparisons[${index}].raw.${design}`, { ...one.raw[design] }, pairs),
    );
  });
  return all.find(Boolean) ?? null;
}
