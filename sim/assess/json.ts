/** Reads the result of an assessment back from JSON. */
import { resultReader, wrongLength } from '../basics/read-result.js';
import { wrongFlights, wrongHistogram } from '../ensemble/wrong-flights.js';
import type { Outcome } from '../flight/record.js';
import type { AssessResult } from './result.js';
import schema from './result.schema.json' with { type: 'json' };

export const parseResult = resultReader<AssessResult>({ kind: 'assess', called: 'assessment' }, schema, contradiction);

/** Outcomes must add up to the flights, the raw columns must hold as many, and lists that go together must be of one length. */
function contradiction(result: AssessResult): string | null {
  const { raw, flights, outcomes, curve, convergence, histories, footprint } = result;
  const { outcome, cause, columns } = raw.planned;
  const checks = [
    wrongFlights('raw.planned', { outcome, cause, ...columns }, flights),
    wrongSum('outcomes', outcomes, flights),
    ...curve.map(({ outcomes, risk }, index) => wrongSum(`curve[${index}].outcomes`, outcomes, risk.flights)),
    ...curve.map(({ speeds }, index) => wrongHistogram(`curve[${index}].speeds`, speeds)),
    ...raw.curve.map(({ outcome, touchdownSpeed, flights }, index) =>
      wrongFlights(`raw.curve[${index}]`, { outcome, touchdownSpeed }, flights),
    ),
    wrongLength('convergence.', convergence, convergence.flights.length),
    ...histories.map(({ time, height, speed }, index) =>
      wrongLength(`histories[${index}].`, { time, height, speed }, time.length),
    ),
    wrongLength('footprint.', { soft: footprint.soft, notSoft: footprint.notSoft }, (2 * footprint.halfCells) ** 2),
  ];
  return checks.find((wrong) => wrong !== null) ?? null;
}

function wrongSum(place: string, outcomes: Readonly<Record<Outcome, number>>, flights: number): string | null {
  const counts = Object.values(outcomes);
  const whole = counts.every((count) => Number.isInteger(count) && count >= 0);
  const sum = counts.reduce((all, count) => all + count, 0);
  return whole && sum === flights ? null : `"${place}" does not add up to ${flights} flights`;
}
