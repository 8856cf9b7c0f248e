/** Each axis of a day card is an input of the day with the values that are laid out, from easy to hard. */

import { type Answer, ok, refused } from '../basics/answer.js';
import { nearestName } from '../basics/nearest-name.js';
import { quantileOf } from '../distributions/law.js';
import { type LeafPath, leafPaths } from '../scenario/definition/leaves.js';
import type { DecidedPath, InputPath } from '../scenario/definition/paths.js';
import { quoted } from '../scenario/file/problem.js';
import { rangeOf, readValue } from '../scenario/file/range.js';
import { fixedInput, inputNamed } from '../scenario/lookup.js';
import type { ResolvedInput, Scenario } from '../scenario/scenario.js';
import { showQuantity } from '../scenario/units.js';
import type { CardAxis } from './result.js';

export const WIND = 'wind.speed' satisfies InputPath;
const CEILING = 'site.launch_wind_limit' satisfies DecidedPath;
/** The height is what a card tells; it cannot be told. */
const ANSWER = 'plan.throttle_up_height' satisfies DecidedPath;
/** More values make no page that can be read in the field. */
export const MOST_VALUES = 8;

/** Reads "wind.speed=2 m/s,4 m/s,6 m/s": each value with its unit. Without "=" the values that the program chooses. */
export function readAxis(scenario: Scenario, text: string, count: number): Answer<CardAxis> {
  const [path, list] = text.includes('=')
    ? [text.slice(0, text.indexOf('=')), text.slice(text.indexOf('=') + 1)]
    : [text];
  const found = inputOf(scenario, path.trim());
  if (found.status === 'refused') return found;
  if (list === undefined) return standardAxis(scenario, path.trim(), count);
  const { input, leaf } = found.value;
  const parts = list.split(',').map((part) => part.trim());
  const problems: string[] = [];
  const values = parts.flatMap((part) => {
    const place = { file: '', line: 1, column: 1 };
    const report = (_place: unknown, _path: string, what: string, expected: string) =>
      void problems.push(`found ${what}; write ${expected}`);
    const written = { form: 'scalar', place, value: part === '' ? null : part, source: part } as const;
    return readValue(written, { path: input.path, range: rangeOf(leaf), report }) ?? [];
  });
  if (problems.length > 0) return refused(`${problems.join('. ')}.`);
  if (new Set(values).size < values.length) return refused('the same value stands there twice; write each once.');
  if (values.length > MOST_VALUES)
    return refused(`${values.length} values are too many for one page; write at most ${MOST_VALUES}.`);
  return ok(axisOf(input, leaf, values));
}

/**
 * Round values from the 5 % to the 95 % point of the input's own distribution, from half to twice the value where it
 * has none. The wind goes from calm to the launch code's ceiling, which is the last value.
 */
export function standardAxis(scenario: Scenario, path: string, count: number): Answer<CardAxis> {
  const found = inputOf(scenario, path);
  if (found.status === 'refused') return found;
  const { input, leaf } = found.value;
  const shown = (si: number) => si * input.perSi + input.offset;
  const toSi = (value: number) => Number(((value - input.offset) / input.perSi).toPrecision(12));
  if (path === WIND) {
    const ceiling = fixedInput(scenario, CEILING);
    const step = roundStep(shown(ceiling) / (count - 1));
    const round = Array.from({ length: count - 1 }, (_, index) => toSi(multiple(index, step)));
    return ok(axisOf(input, leaf, [...round.filter((speed) => speed < ceiling), ceiling]));
  }
  const [low, high] = [0.05, 0.95].map((share) => shown(endOf(input, share)));
  const { least, most } = rangeOf(leaf);
  const values = roundValues(Math.min(low, high), Math.max(low, high), count).map(toSi);
  const possible = values.filter((value) => value >= least && value <= most);
  return low === high || possible.length === 0
    ? refused(`${path} is ${input.written} in the scenario and has no spread; write the values: ${exampleOf(input)}.`)
    : ok(axisOf(input, leaf, possible));
}

function endOf({ value }: ResolvedInput, share: number): number {
  return value.form === 'fixed' ? value.value * (share < 0.5 ? 0.5 : 2) : quantileOf(value, share);
}

/** `count` multiples of a round step that reach from about `low` to at least `high`. */
function roundValues(low: number, high: number, count: number): readonly number[] {
  if (!(high > low)) return [];
  let step = roundStep((high - low) / (count - 1));
  for (;;) {
    const first = Math.round(low / step);
    if (multiple(first + count - 1, step) >= high)
      return Array.from({ length: count }, (_, index) => multiple(first + index, step));
    step = roundStep(step * 1.01);
  }
}

/** The smallest of 1, 2, 2.5, 5, 10 ... times a power of ten that is at least so large. */
function roundStep(least: number): number {
  const decade = 10 ** Math.floor(Math.log10(least));
  const share = [1, 2, 2.5, 5, 10].find((one) => one * decade >= least * (1 - 1e-9)) ?? 10;
  return Number((share * decade).toPrecision(3));
}

function multiple(factor: number, step: number): number {
  return Number((factor * step).toPrecision(12));
}

type InputLeaf = Extract<LeafPath['entry'], { shape: 'quantity' | 'chance' }>;

interface FoundInput {
  readonly input: ResolvedInput;
  readonly leaf: InputLeaf;
}

function inputOf(scenario: Scenario, path: string): Answer<FoundInput> {
  const input = inputNamed(scenario, path);
  const leaf = leafPaths().find((one) => one.path === path)?.entry;
  if (path === ANSWER) return refused('the throttle-up height is what the card tells; name another input.');
  if (input !== null && (leaf?.shape === 'quantity' || leaf?.shape === 'chance')) return ok({ input, leaf });
  const paths = scenario.inputs.map((one) => one.path).filter((one) => one !== ANSWER);
  const last = path.slice(path.lastIndexOf('.') + 1);
  const nearest = nearestName(path, paths) ?? paths.find((known) => known.endsWith(`.${last}`));
  const what = leaf === undefined ? 'is no entry of a scenario' : 'is no number of this scenario';
  return refused(`${quoted(path)} ${what}.${nearest ? ` Did you mean "${nearest}"?` : ''}`);
}

function exampleOf(input: ResolvedInput): string {
  const text = showQuantity(1 / input.perSi, { ...input, offset: 0 }, 1);
  return `${input.path}=${text},...`;
}

/** With its values from easy to hard, as far as the definition knows which end is the better end. */
function axisOf(
  { path, unit, perSi, offset, written }: ResolvedInput,
  leaf: InputLeaf,
  values: readonly number[],
): CardAxis {
  const better = leaf.shape === 'chance' ? 'low' : leaf.better;
  const ascending = values.toSorted((a, b) => a - b);
  return {
    path,
    meaning: leaf.doc,
    unit,
    perSi,
    offset,
    values: better === 'high' ? ascending.reverse() : ascending,
    ordered: better === 'low' || better === 'high',
    inScenario: written,
  };
}
