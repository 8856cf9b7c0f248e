/** What drives the risk: inputs whose uniform draws are not uniform among the failed flights. No further flights. */
import { CAUSES, type FlightColumns, isSoft } from '../../flight/record.js';
import { holm } from '../../statistics/holm.js';
import { kolmogorovPValue, uniformDistance } from '../../statistics/kolmogorov.js';
import type { DriverGroup, DriverRow, DriversResult } from '../decisions.js';

/** One drawn input with its uniform number in each flight, in the order of the columns. */
export interface DrawnUniforms {
  readonly path: string;
  readonly uniforms: ArrayLike<number>;
}

/** Fewer failures are not ranked. */
export const LEAST_FAILURES = 100;
const FLAGGED = 0.05;

/**
 * For all failures and for each cause: Kolmogorov-Smirnov distance of the failed flights' uniform numbers from the
 * uniform law, with the exact law's p-value. An input without influence keeps the uniform law, whatever its own
 * distribution. Holm's correction runs over all inputs and causes at once, so a false flag anywhere comes in at most
 * 5 % of studies. A flag says that the failed flights differ in this input, not that it is the cause: correlated
 * inputs are flagged together.
 *
 * @param columns flights at one height, with causes where groups by cause are wanted
 */
export function driversOf(columns: FlightColumns, inputs: readonly DrawnUniforms[]): DriversResult {
  const groups = failureGroups(columns);
  const ranked = groups.filter(({ ids }) => ids.length >= LEAST_FAILURES);
  const tests = ranked.flatMap(({ cause, ids }) =>
    inputs.map(({ path, uniforms }) => {
      const drawn = Float64Array.from(ids, (id) => uniforms[id]);
      const distance = uniformDistance(drawn);
      return { cause, path, distance, raw: kolmogorovPValue(distance, drawn.length), crowds: crowding(drawn) };
    }),
  );
  const corrected = holm(tests.map(({ raw }) => raw));
  const rowsOf = (cause: string): DriverRow[] =>
    tests
      .map(({ raw: _, ...test }, index) => ({
        ...test,
        pValue: corrected[index],
        flagged: corrected[index] <= FLAGGED,
      }))
      .filter((test) => test.cause === cause)
      .map(({ cause: _, ...row }) => row)
      .sort((one, other) => other.distance - one.distance);
  return {
    height: columns.height,
    flights: columns.outcome.length,
    groups: groups.map(
      ({ cause, ids }): DriverGroup => ({
        cause,
        failures: ids.length,
        status: ids.length >= LEAST_FAILURES ? 'ranked' : 'too few to rank',
        rows: rowsOf(cause),
      }),
    ),
  };
}

/** Flight numbers of all failures, then of each cause that took any, in the order of CAUSES. */
function failureGroups({ outcome, cause }: FlightColumns): { readonly cause: string; readonly ids: number[] }[] {
  const all: number[] = [];
  const byCause = new Map<number, number[]>();
  for (let id = 0; id < outcome.length; id++) {
    if (isSoft(outcome[id])) continue;
    all.push(id);
    if (CAUSES[cause[id]] === 'none' || CAUSES[cause[id]] === 'not sought') continue;
    const list = byCause.get(cause[id]);
    if (list === undefined) byCause.set(cause[id], [id]);
    else list.push(id);
  }
  const causes = [...byCause].sort(([one], [other]) => one - other);
  return [{ cause: 'all', ids: all }, ...causes.map(([index, ids]) => ({ cause: CAUSES[index] as string, ids }))];
}

/** Which outer quarters hold more uniform numbers than the quarter they would hold by the uniform law. */
function crowding(uniforms: Float64Array): DriverRow['crowds'] {
  const quarter = uniforms.length / 4;
  const low = uniforms.filter((uniform) => uniform < 0.25).length;
  const high = uniforms.filter((uniform) => uniform >= 0.75).length;
  if (low > quarter && high > quarter) return 'both ends';
  if (low <= quarter && high <= quarter) return 'middle values';
  return low > high ? 'low values' : 'high values';
}
