/** Reads the result of an assessment back from JSON. */
import { resultReader } from '../basics/read-result.js';
import { wrongFlights } from '../ensemble/wrong-flights.js';
import type { AssessResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseResult = resultReader<AssessResult>({ kind: 'assess', called: 'assessment' }, schema, contradiction);

/** The raw columns must hold as many flights as the result speaks of. */
function contradiction({ raw: { planned, curve }, flights }: AssessResult): string | null {
  const { outcome, cause, columns } = planned;
  const points = curve.map((point, index) => {
    const { outcome, touchdownSpeed } = point;
    return wrongFlights(`raw.curve[${index}]`, { outcome, touchdownSpeed }, point.flights);
  });
  return [wrongFlights('raw.planned', { outcome, cause, ...columns }, flights), ...points].find(Boolean) ?? null;
}
