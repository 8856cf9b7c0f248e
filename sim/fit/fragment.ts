import { figure, type Piece, withUnit } from '../scenario/file/fragment.js';
import { UNMEASURED, VARIES } from '../scenario/file/kind.js';
import { FEW, type Fitted } from './fit-samples.js';

/** With more values than this, what the values leave open is nothing beside the flight-to-flight spread. */
const PLENTY = 2000;
/** Standard deviations between the 2.5 and the 97.5 % point of a normal law. */
const WIDTH = 3.92;

export interface FragmentRequest {
  readonly fitted: Fitted;
  readonly count: number;
  readonly least: number;
  readonly most: number;
  readonly unit: string;
  readonly differenceUnit: string;
  /** Where the data come from, as "column reaction_s of bench.csv". */
  readonly origin: string;
  readonly invented: boolean;
  /** Smallest and largest value that the input may have, in the unit; infinite where not known. */
  readonly range: readonly [number, number];
}

/**
 * Writes the flight-to-flight spread as fitted; it is not widened for few samples. Each parameter is a value that nobody
 * has measured exactly, with the range that the samples leave: more samples narrow the answer, and the report can say what
 * measuring more is worth.
 */
export function fitFragment(request: FragmentRequest): Piece {
  const { fitted, invented, origin, count } = request;
  const { family } = fitted.fit;
  return {
    [family === 'samples' ? 'samples' : family]: distributionOf(request),
    kind: VARIES,
    source: 'measured',
    note: `${invented ? 'invented for demonstration: ' : ''}${count} values, ${origin}; ${provenance(fitted, count)}`,
  };
}

function provenance({ fit }: Fitted, count: number): string {
  if (fit.fit === null) return 'the values themselves';
  if (count < FEW) return `maximum likelihood; no test can confirm a shape with ${count} values`;
  const { modified, points, pValue } = fit.fit;
  const five = points.find(({ level }) => level === 0.05);
  const test =
    modified === null || five === undefined
      ? `p ${(pValue ?? 0).toFixed(2)} from redrawn samples`
      : `${modified.toFixed(2)}, 5 % point ${five.value}`;
  return `maximum likelihood, Anderson-Darling ${test}`;
}

function distributionOf(request: FragmentRequest): Piece | readonly (string | number)[] {
  const { fitted, unit, differenceUnit, count } = request;
  const { law, spread } = fitted;
  if (law.family === 'samples') return law.values.map((value) => withUnit(figure(value, 0, 6), unit));
  const at = law as unknown as Readonly<Record<string, number>>;
  const plain = count > PLENTY;
  const unitOf = (name: string) => (name === 'sd' ? differenceUnit : name === 'spread' || name === 'shape' ? '' : unit);
  if (law.family === 'triangular') return triangular(request, plain);
  return Object.fromEntries(
    Object.entries(spread).map(([name, [low, middle, high]]) => {
      const own = unitOf(name);
      if (plain) return [name, withUnit(figure(at[name], (high - low) / WIDTH), own)];
      const open: Piece =
        name === 'mean'
          ? {
              normal: {
                mean: withUnit(figure(middle, (high - low) / WIDTH), own),
                sd: withUnit(figure((high - low) / WIDTH, 0, 3), differenceUnit),
              },
            }
          : {
              'log-normal': {
                median: withUnit(figure(middle), own),
                spread: figure(Math.log(high / low) / WIDTH, 0, 3),
              },
            };
      return [name, { ...open, kind: UNMEASURED }];
    }),
  );
}

/**
 * The corners of a triangular law, which keep their order whatever the unmeasured corners turn out to be; the ends take in
 * every sample.
 */
function triangular({ fitted, least, most, unit, range }: FragmentRequest, plain: boolean): Piece {
  const { from, mode, to } = fitted.law as unknown as Readonly<Record<'from' | 'mode' | 'to', number>>;
  const { spread } = fitted;
  const [floor, ceiling] = [least > 0 ? Math.max(0, range[0]) : range[0], range[1]];
  const margin = 0.01 * (most - least);
  const held = (value: number, low: number, high: number) => Math.min(Math.max(value, low), high);
  const corner = (name: 'from' | 'mode' | 'to', value: number, low: number, high: number): string | number | Piece => {
    const [a, b] = [held(spread[name][0], low, high), held(spread[name][2], low, high)];
    const room = 1e-3 * (most - least);
    if (plain || b - a < room) return withUnit(figure(held(value, low, high), room), unit);
    const ends = { from: withUnit(figure(a, room), unit), to: withUnit(figure(b, room), unit) };
    return { uniform: ends, kind: UNMEASURED };
  };
  return {
    from: corner('from', from, floor, least - 0.1 * margin),
    mode: corner('mode', mode, least + margin, most - margin),
    to: corner('to', to, most + 0.1 * margin, ceiling),
  };
}
