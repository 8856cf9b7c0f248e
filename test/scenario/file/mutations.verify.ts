/** Scenarios broken at random: the reader never throws, and what it lets through holds finite numbers only. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { isMap, isScalar, isSeq, type Pair, parseDocument, type YAMLMap } from 'yaml';
import { quantileOf } from '../../../sim/distributions/law.js';
import { leafPaths } from '../../../sim/scenario/definition/leaves.js';
import type { Chance, Quantity } from '../../../sim/scenario/definition/shapes.js';
import { rangeOf } from '../../../sim/scenario/file/range.js';
import { type ReadScenario, readScenario } from '../../../sim/scenario/file/read.js';
import { displayUnit, showQuantity } from '../../../sim/scenario/units.js';
import { howMany } from '../../in-full.js';
import { BASE, memoryFiles } from './memory-files.js';

const RUNS = howMany(30, 100);

/** Every number in the scenario, and values at the ends of every distribution, are finite; or there is a problem with a place. */
function expectSound(read: ReadScenario, text: string): void {
  if (read.status === 'refused') {
    expect(read.problems.length).toBeGreaterThan(0);
    const lines = text.split(/\r\n|\r|\n/).length;
    for (const { file, line, column, found, expected } of read.problems) {
      expect(Number.isInteger(line) && line >= 1, `line ${line}`).toBe(true);
      expect(Number.isInteger(column) && column >= 1, `column ${column}`).toBe(true);
      if (file === 'it.yaml') expect(line).toBeLessThanOrEqual(lines);
      expect(found).not.toBe('');
      expect(expected).not.toBe('');
    }
    return;
  }
  const { value: scenario } = read;
  const bad: string[] = [];
  JSON.stringify(scenario, (key, value) => {
    if (typeof value === 'number' && !Number.isFinite(value)) bad.push(key);
    return value;
  });
  expect(bad).toEqual([]);
  for (const { path, value } of scenario.inputs) {
    for (const u of [0, 0.001, 0.5, 0.999, 1])
      expect(Number.isFinite(quantileOf(value, u)), `${path} at ${u}`).toBe(true);
  }
}

const readText = (text: string, overrides: readonly string[] = []) =>
  readScenario('it.yaml', overrides, memoryFiles({ 'it.yaml': text, 'base.yaml': BASE }));

/** Things that may stand where something else should. */
const anything = fc.oneof(
  fc.constantFrom(
    '',
    '~',
    'true',
    '[]',
    '{}',
    '.nan',
    '-.inf',
    '1e999',
    '-0',
    '0',
    '1',
    '-3 g',
    '5 %',
    '610',
    '12 mm',
    '1e308 m',
    '1e-320 kg',
  ),
  fc.constantFrom(
    '300 K',
    '35 °C',
    '100 g',
    'none',
    '*nope',
    '&a [*a]',
    '!!binary aGVq',
    '"\\0"',
    '{ trials: 3, failures: 4 }',
    '<script>',
  ),
  fc.constantFrom(
    '{ normal: { mean: 1 m, sd: 0 m }, kind: varies from flight to flight }',
    '{ normal: { mean: 1, sd: 1e308 }, kind: fixed but not measured }',
    '{ log-normal: { median: 5e-324 s, spread: 5 }, kind: varies from flight to flight }',
    '{ log-normal: { median: 1 s, spread: 5 }, kind: varies from flight to flight }',
    '{ weibull: { shape: 0.1, scale: 1 m/s }, kind: varies from flight to flight }',
    '{ weibull: { shape: { normal: { mean: 0.2, sd: 3 }, kind: fixed but not measured }, scale: 1 m/s }, kind: varies from flight to flight }',
    '{ beta: { a: 0.01, b: 1000000 }, kind: fixed but not measured }',
    '{ normal: { mean: 0 kg m^2, sd: 1e300 kg m^2 }, kind: fixed but not measured }',
    '{ samples: [1 g, 2 g], kind: varies from flight to flight }',
    '{ uniform: { from: 0, to: 1 }, at_least: 2, kind: fixed but not measured }',
  ),
  fc.string({ maxLength: 12 }),
  fc.double().map((number) => `${number} m`),
);

/** What of a parameter: a place in the entry's own range, a width (any power of ten), or a plain number. */
const PARAMETERS: Readonly<Record<string, readonly (readonly [name: string, what: 'place' | 'width' | 'number'])[]>> = {
  normal: [
    ['mean', 'place'],
    ['sd', 'width'],
  ],
  'log-normal': [
    ['median', 'place'],
    ['spread', 'number'],
  ],
  uniform: [
    ['from', 'place'],
    ['to', 'place'],
  ],
  triangular: [
    ['from', 'place'],
    ['mode', 'place'],
    ['to', 'place'],
  ],
  beta: [
    ['a', 'number'],
    ['b', 'number'],
    ['from', 'place'],
    ['to', 'place'],
  ],
  weibull: [
    ['shape', 'number'],
    ['scale', 'place'],
  ],
};

const share = fc.oneof(fc.constantFrom(0, 1e-12, 1), fc.double({ min: 0, max: 1, noNaN: true }));

/** Writes a distribution for an entry; its parameters may themselves be unmeasured, its bounds anywhere. */
const distribution = fc
  .record({
    family: fc.constantFrom(...Object.keys(PARAMETERS)),
    places: fc.array(share, { minLength: 8, maxLength: 8 }).map((all) => all.sort((a, b) => a - b)),
    width: fc.integer({ min: -12, max: 12 }),
    plain: fc.constantFrom('0.01', '0.1', '1', '4.9', '200'),
    nested: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    bounds: fc.constantFrom('', 'at_least', 'at_most'),
    bound: share,
  })
  .map(({ family, places, width, plain, nested, bounds, bound }) => (leaf: Quantity | Chance) => {
    const { least, most, dimension } = rangeOf(leaf);
    const display = displayUnit(leaf.shape === 'quantity' ? leaf.unit : '', dimension);
    const low = Number.isFinite(least) ? least : -1000;
    const high = Number.isFinite(most) ? most : 1000;
    const place = (at: number) => showQuantity(low + at * (high - low), display, 12);
    const parameters = PARAMETERS[family].map(([name, what], index) => {
      if (what === 'number') return `${name}: ${plain}`;
      if (what === 'width') return `${name}: 1e${width} ${display.unit}`;
      const [from, to] = [place(places[2 * index]), place(places[2 * index + 1])];
      const uniform = `{ uniform: { from: ${from}, to: ${to} }, kind: fixed but not measured }`;
      return `${name}: ${nested[index] ? uniform : from}`;
    });
    const cut = bounds === '' ? '' : `${bounds}: ${place(bound)}, `;
    return `{ ${family}: { ${parameters.join(', ')} }, ${cut}kind: fixed but not measured }`;
  });

const lines = BASE.split('\n');
const line = fc.nat({ max: lines.length - 1 });

const edit = fc.oneof(
  fc.tuple(fc.constant('delete'), line, line, anything),
  fc.tuple(fc.constant('swap'), line, line, anything),
  fc.tuple(fc.constant('value'), line, line, anything),
  fc.tuple(fc.constant('key'), line, line, anything),
  fc.tuple(fc.constant('indent'), line, line, anything),
);

function edited(edits: readonly (readonly [string, number, number, string])[]): string {
  const text = [...lines];
  for (const [what, at, other, thing] of edits) {
    if (what === 'delete') text[at] = '';
    if (what === 'swap') [text[at], text[other]] = [text[other], text[at]];
    if (what === 'value') text[at] = text[at].replace(/:.*$/, () => `: ${thing}`);
    if (what === 'key') text[at] = text[at].replace(/[a-z_]+(?=:)/, () => thing);
    if (what === 'indent') text[at] = `  ${text[at]}`;
  }
  return text.join('\n');
}

describe('a scenario broken at random', () => {
  test('line by line: deleted, swapped, renamed, indented, given other values', () => {
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
        const text = edited(edits);
        expectSound(readText(text), text);
      }),
      { numRuns: RUNS, seed: 1 },
    );
  });

  test('entry by entry: values moved to other entries, parts deleted', () => {
    fc.assert(
      fc.property(fc.nat(), fc.nat(), fc.constantFrom('move', 'copy', 'delete'), (from, to, what) => {
        const text = moved(from, to, what);
        expectSound(readText(text), text);
      }),
      { numRuns: RUNS, seed: 2 },
    );
  });

  test('every leaf given something else by --set', () => {
    const path = fc.constantFrom(...leafPaths().map((leaf) => leaf.path));
    fc.assert(
      fc.property(path, anything, (key, thing) => {
        const text = 'extends: base.yaml\n';
        expectSound(readText(text, [`${key}=${thing}`]), text);
      }),
      { numRuns: RUNS, seed: 3 },
    );
  });

  test('every input given distributions of its own dimension, with numbers of any size', () => {
    const inputs = leafPaths().flatMap(
      ({ path, entry }): { readonly path: string; readonly leaf: Quantity | Chance }[] => {
        if (entry.shape === 'chance') return [{ path, leaf: entry }];
        return entry.shape === 'quantity' && entry.fixed !== true ? [{ path, leaf: entry }] : [];
      },
    );
    let readable = 0;
    fc.assert(
      fc.property(fc.constantFrom(...inputs), distribution, ({ path, leaf }, write) => {
        const text = 'extends: base.yaml\n';
        const read = readText(text, [`${path}=${write(leaf)}`]);
        if (read.status === 'ok') readable++;
        expectSound(read, text);
      }),
      { numRuns: 2 * RUNS, seed: 5 },
    );
    expect(readable).toBeGreaterThan(RUNS / 4); // else the property would test nothing but messages
  });

  test('any text at all', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'{}[]&*!:-?|>%@`"\'#, \n\ta1~<'), maxLength: 60 }), (text) => {
        expectSound(readText(text), text);
      }),
      { numRuns: 4 * RUNS, seed: 4 },
    );
  });
});

test.each([
  ['an anchor that holds itself', 'can: &a { mass: *a }'],
  [
    'anchors that double at every step',
    Array.from({ length: 40 }, (_, i) => `k${i}: &k${i} [${i === 0 ? 'x' : `*k${i - 1}, *k${i - 1}`}]`).join('\n'),
  ],
  ['deep nesting', `can: ${'['.repeat(3000)}${']'.repeat(3000)}`],
  ['a very long line', `can: { mass: ${'9'.repeat(100_000)} g }`],
  ['too long a text', `# ${'x'.repeat(1_100_000)}`],
])('%s is bad input like any other', (_, text) => {
  expectSound(readText(text), text);
});

/** The base with the value of one entry put in place of, or deleted from, another. */
function moved(from: number, to: number, what: string): string {
  const document = parseDocument(BASE);
  const pairs: { readonly map: YAMLMap; readonly pair: Pair }[] = [];
  const collect = (node: unknown): void => {
    if (isMap(node)) for (const pair of node.items) pairs.push({ map: node, pair });
    if (isMap(node)) for (const { value } of node.items) collect(value);
    if (isSeq(node)) node.items.forEach(collect);
  };
  collect(document.contents);
  const source = pairs[from % pairs.length];
  const target = pairs[to % pairs.length];
  const value = source.pair.value;
  if (what === 'delete') target.map.items = target.map.items.filter((pair) => pair !== target.pair);
  else if (what === 'move')
    [source.pair.value, target.pair.value] = [
      target.pair.value,
      isScalar(value) || !contains(value, target.pair) ? value : null,
    ];
  else target.pair.value = isScalar(value) ? value.value : String(value);
  return String(document);
}

function contains(node: unknown, pair: Pair): boolean {
  if (isMap(node)) return node.items.some((item) => item === pair || contains(item.value, pair));
  return isSeq(node) && node.items.some((item) => contains(item, pair));
}
