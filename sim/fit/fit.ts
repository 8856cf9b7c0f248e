/** Makes a fit from the text of a file, or from trials and failures. */
import { type Answer, ok, refused } from '../basics/answer.js';
import { presentVersions } from '../basics/versions.js';
import { type DataUnit, fromSi, readUnit } from '../scenario/file/column-unit.js';
import { columnIndex, openCsv, readNumbers } from '../scenario/file/csv-columns.js';
import { atPath, blockLevels, figure, type Piece, yamlText } from '../scenario/file/fragment.js';
import { quoted } from '../scenario/file/problem.js';
import { rangeOf } from '../scenario/file/range.js';
import { betaQuantileOf, jeffreysLaw } from '../statistics/beta-law.js';
import { chooseFamily, fitWarnings } from './choose-family.js';
import { FEWEST, type Fitted, fitFamilies, momentsOf, thinned } from './fit-samples.js';
import { fitFragment } from './fragment.js';
import { inputAt, problemWith } from './input.js';
import type { FitFamily, SamplesFit, TrialsFit } from './result.js';
import { densityOfLaw, quantileOfLaw } from './written-law.js';

/** Values shown and drawn. */
const MOST_SHOWN = 400;
const CURVE_POINTS = 120;

export interface FitOptions {
  readonly column: string;
  /** Null where no unit was given, which only a ratio allows. */
  readonly unit: string | null;
  readonly family: FitFamily | 'auto';
  /** Path of the input that the fit is for. */
  readonly path: string | null;
}

/** A fit, and the entry to be written into a scenario. */
export interface Fit<R> {
  readonly result: R;
  readonly piece: Piece;
}

export function fitColumn(text: string, file: string, options: FitOptions): Answer<Fit<SamplesFit>> {
  const table = openCsv(text, file);
  if (table.status === 'refused') return table;
  const index = columnIndex(table.value, options.column, '--column');
  if (index.status === 'refused') return index;
  const leaf = options.path === null ? null : inputAt(options.path);
  if (leaf?.status === 'refused') return leaf;
  const dimension = leaf === null ? null : rangeOf(leaf.value).dimension;
  if (options.unit === null && dimension !== 'ratio')
    return refused('fit needs the unit of the column, such as --unit s; for a pure number write --unit 1.');
  const unit = readUnit(options.unit ?? '', dimension, '--unit');
  if (unit.status === 'refused') return unit;
  const numbers = readNumbers(table.value, [index.value]);
  if (numbers.status === 'refused') return numbers;

  const { columns, lines } = numbers.value;
  const range = leaf === null ? NO_RANGE : unitRange(leaf.value, unit.value);
  const outside = columns[0].findIndex((value) => value < range[0] || value > range[1]);
  if (outside >= 0 && leaf !== null)
    return refused(
      `${file}:${lines[outside]}: found ${`${columns[0][outside]} ${unit.value.unit}`.trim()}, which ${options.path} cannot be; expected ${rangeOf(leaf.value).words}.`,
    );
  const values = columns[0].filter((value) => !Number.isNaN(value)).sort();
  const refusal = unfit(values, file, options.column);
  if (refusal !== null) return refused(refusal);
  const source = {
    values,
    empty: columns[0].length - values.length,
    file,
    column: table.value.names[index.value],
    invented: /\binvented\b/i.test(table.value.remarks),
  };
  return fitted(source, unit.value, range, options, leaf === null ? null : leaf.value);
}

const NO_RANGE = [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY] as const;

function unitRange(leaf: Parameters<typeof rangeOf>[0], unit: DataUnit): readonly [number, number] {
  const { least, most } = rangeOf(leaf);
  return [fromSi(least, unit), fromSi(most, unit)];
}

/**
 * Values larger than this, and spreads smaller than its inverse, overflow the sums of a fit: 1e30 of any unit is no
 * measurement.
 */
const BEYOND = 1e30;

function unfit(values: Float64Array, file: string, column: string): string | null {
  const where = `column ${quoted(column)} of ${quoted(file)}`;
  if (values.length < FEWEST)
    return `${where} holds ${values.length} ${values.length === 1 ? 'value' : 'values'}, but at least ${FEWEST} are needed to say anything of a spread; measure more.`;
  const [least, most] = [values[0], values[values.length - 1]];
  const size = Math.max(Math.abs(least), Math.abs(most));
  if (size > BEYOND || (least < most && (most - least < 1 / BEYOND || most - least < 1e-12 * size)))
    return `${where} holds values from ${least} to ${most}, which no bench measures and no fit can hold; check the column and write it in a fitting unit.`;
  if (least === most)
    return `all ${values.length} values in ${where} are ${values[0]}: there is no spread to fit. Write it as one value, or measure with more digits.`;
  return null;
}

interface Source {
  readonly values: Float64Array;
  readonly empty: number;
  readonly file: string;
  readonly column: string;
  readonly invented: boolean;
}

function fitted(
  source: Source,
  unit: DataUnit,
  range: readonly [number, number],
  { family, path }: FitOptions,
  leaf: Parameters<typeof problemWith>[1] | null,
): Answer<Fit<SamplesFit>> {
  const { values, file, column } = source;
  const count = values.length;
  const all = fitFamilies({ values, unit: unit.unit, differenceUnit: unit.difference, interval: unit.interval });
  const { chosen, why } =
    family === 'auto' ? chooseFamily(all, count) : { chosen: family, why: 'Asked for with --family.' };
  const one = all.find(({ fit }) => fit.family === chosen);
  if (one === undefined)
    return refused(
      `--family is ${chosen}, but that needs values above 0 on a scale with a true zero, and the least value is ${values[0]} ${unit.unit}; choose normal, triangular or samples.`,
    );
  const piece = fitFragment({
    fitted: one,
    count,
    least: values[0],
    most: values[count - 1],
    unit: unit.unit,
    differenceUnit: unit.difference,
    origin: `column ${column} of ${file}`,
    invented: source.invented,
    range,
  });
  const problem = path === null || leaf === null ? null : problemWith(path, leaf, piece);
  if (problem !== null)
    return refused(
      `a ${chosen} with what ${count} values leave open does not fit the limits of ${path}:`,
      problem,
      'Choose another --family, or measure more.',
    );
  const shown = thinned(values, MOST_SHOWN);
  const { mean, sd } = momentsOf(values);
  const result: SamplesFit = {
    kind: 'fit',
    form: 'samples',
    versions: presentVersions(),
    data: { file, column, unit: unit.unit },
    count,
    empty: source.empty,
    mean,
    sd,
    values: [...shown],
    families: all.map(({ fit }) => fit),
    chosen,
    why,
    curve: curveOf(one, values, sd),
    quantiles: [...shown].map((_, i) => quantileOfLaw(one.law, (i + 0.5) / shown.length)),
    path,
    fragment: fragmentText(path, piece),
    warnings: fitWarnings(values, one),
  };
  return ok({ result, piece });
}

export function fragmentText(path: string | null, piece: Piece): string {
  const whole = path === null ? { input: piece } : atPath(path, piece);
  return yamlText(whole, (path === null ? 1 : path.split('.').length) + blockLevels(piece));
}

function curveOf({ law }: Fitted, values: Float64Array, sd: number): SamplesFit['curve'] {
  if (law.family === 'samples') return [];
  const from = Math.max(values[0] - sd, values[0] > 0 ? 0 : Number.NEGATIVE_INFINITY);
  const to = Math.max(values[values.length - 1] + sd, quantileOfLaw(law, 0.995));
  return Array.from({ length: CURVE_POINTS + 1 }, (_, i) => {
    const x = from + ((to - from) * i) / CURVE_POINTS;
    const density = densityOfLaw(law, x);
    return { x, density: Number.isFinite(density) ? density : 0 };
  });
}

/**
 * The law of a chance from trials: Beta(failures + 1/2, trials - failures + 1/2), the posterior with the prior of
 * Jeffreys. The chance is unmeasured; the event varies from flight to flight.
 */
export function fitTrials(trials: number, failures: number, path: string | null): Answer<Fit<TrialsFit>> {
  if (failures > trials) return refused(`--failures is ${failures}, more than the ${trials} of --trials.`);
  const leaf = path === null ? null : inputAt(path);
  if (leaf?.status === 'refused') return leaf;
  if (leaf !== null && leaf.value.shape !== 'chance')
    return refused(`--path is "${path}", which is no chance; trials and failures fit one such as arms.stuck.`);
  const law = jeffreysLaw(failures, trials);
  const piece: Piece = {
    trials,
    failures,
    source: 'measured',
    note: `${failures} ${failures === 1 ? 'failure' : 'failures'} in ${trials} trials`,
  };
  const result: TrialsFit = {
    kind: 'fit',
    form: 'trials',
    versions: presentVersions(),
    trials,
    failures,
    mean: law.a / (law.a + law.b),
    low: betaQuantileOf(law, 0.025),
    high: betaQuantileOf(law, 0.975),
    path,
    fragment: fragmentText(path, piece),
    warnings:
      failures > 0
        ? []
        : [
            {
              code: 'no failure',
              text: `No failure in ${trials} trials does not mean that none will come: up to ${figure(100 * (1 - 0.05 ** (1 / trials)), 0, 2)} in 100 is plausible (95 %).`,
              advice: 'More trials narrow it; the report says what they would be worth.',
            },
          ],
  };
  return ok({ result, piece });
}
