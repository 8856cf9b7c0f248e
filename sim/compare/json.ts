/** Reads a comparison back from JSON. */
import { resultReader } from '../basics/read-result.js';
import { decodeBytes } from '../ensemble/raw-columns.js';
import { wrongFlights, wrongHistogram } from '../ensemble/wrong-flights.js';
import type { CompareResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseComparison = resultReader<CompareResult>(
  { kind: 'compare', called: 'comparison' },
  schema,
  contradiction,
);

/** Both designs hold as many flights as there are pairs, and whole histograms of their speeds. */
function contradiction({ comparisons, flights }: CompareResult): string | null {
  const all = comparisons.flatMap((one, index) => {
    if (one.status !== 'compared') return [];
    const pairs = index === 0 ? flights : decodeBytes(one.raw.a.outcome).length;
    return (['a', 'b'] as const).flatMap((design) => [
      wrongFlights(`comparisons[${index}].raw.${design}`, { ...one.raw[design] }, pairs),
      wrongHistogram(`comparisons[${index}].speeds.${design}.histogram`, one.speeds[design].histogram),
    ]);
  });
  return all.find((wrong) => wrong !== null) ?? null;
}
