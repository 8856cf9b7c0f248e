import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { wrongShape } from '../../sim/basics/shape-check.js';
import { EXAMPLES } from './results.js';

type Path = readonly (string | number)[];
type Parts = Record<string | number, unknown>;

/** The JSON text with the value at one place replaced, or taken out where the new one is undefined. */
function edited(result: object, path: Path, value: unknown): string {
  const copy = JSON.parse(JSON.stringify(result));
  const holder = path.slice(0, -1).reduce<Parts>((whole, key) => whole[key] as Parts, copy);
  holder[path[path.length - 1]] = value;
  return JSON.stringify(copy);
}

/** Every place of a value that holds no other. */
function leaves(value: unknown, path: Path = []): readonly Path[] {
  if (value === null || typeof value !== 'object') return [path];
  const list = Array.isArray(value);
  return Object.entries(value).flatMap(([key, entry]) => leaves(entry, [...path, list ? Number(key) : key]));
}

/** The first place of each kind: entries of a list are alike. */
function kindsOf(places: readonly Path[]): readonly Path[] {
  const first = new Map<string, Path>();
  for (const path of places) {
    const kind = path.map((key) => (typeof key === 'number' ? '#' : key)).join('.');
    if (!first.has(kind)) first.set(kind, path);
  }
  return [...first.values()];
}

/** So many of the places, evenly. */
function some<T>(list: readonly T[], count: number): readonly T[] {
  const step = Math.max(1, list.length / count);
  return Array.from({ length: Math.min(count, list.length) }, (_, index) => list[Math.floor(index * step)]);
}

const DAMAGE: readonly (readonly [kind: string, path: Path, value: unknown, says: string])[] = [
  ['assess', ['risk', 'estimate'], 'low', '"risk.estimate" is a text, but must be a number'],
  ['assess', ['risk', 'estimate'], null, '"risk.estimate" is null, but must be a number'],
  ['assess', ['curve', 2, 'risk', 'upper'], undefined, '"curve[2].risk.upper" is missing'],
  ['assess', ['verdict'], 'fine', '"verdict" is "fine", but must be "within", "above" or "not shown"'],
  ['assess', ['histories'], [1], '"histories[0]" is a number, but must be an object'],
  ['assess', ['warnings'], {}, '"warnings" is an object, but must be a list'],
  ['assess', ['flightsToSettle'], 'many', '"flightsToSettle" is a text, but must be a number or null'],
  ['assess', ['heightDecision'], 3, '"heightDecision" is a number, but must be an object or null'],
  ['assess', ['risk', 'guess'], 1, '"risk.guess" is nothing that this result holds'],
  ['assess', ['acceptableRisk'], 1e300, '"acceptableRisk" is 1e+300, but must be between'],
  ['assess', ['outcomes', 'soft'], -3, '"outcomes" does not add up to 60 flights'],
  ['assess', ['curve', 1, 'outcomes', 'hard'], 1e6, '"curve[1].outcomes" does not add up to'],
  ['assess', ['curve', 1, 'speeds', 'hard'], [], '"curve[1].speeds" has not as many bins'],
  ['assess', ['convergence', 'lower'], [0], '"convergence.lower" does not hold'],
  ['assess', ['histories', 0, 'speed'], [0], '"histories[0].speed" does not hold'],
  ['assess', ['footprint', 'soft'], [0], '"footprint.soft" does not hold'],
  ['assess', ['raw', 'planned', 'columns', 'east'], undefined, '"raw.planned.columns.east" is missing'],
  ['assess', ['raw', 'planned', 'columns', 'east'], '????', '"raw.planned.east" does not hold 60 flights'],
  ['assess', ['raw', 'curve', 0, 'touchdownSpeed'], 'AAAA', '"raw.curve[0].touchdownSpeed" does not hold 60 flights'],
  ['assess', ['scenario', 'inputs', 0, 'value', 'form'], undefined, '"scenario.inputs[0].value.form" is missing'],
  [
    'assess',
    ['scenario', 'inputs', 0, 'value', 'form'],
    'odd',
    '.value.form" is "odd", but must be "fixed" or "uncertain"',
  ],
  [
    'assess',
    ['scenario', 'settings', 'a%23~/b'],
    [['x']],
    '"scenario.settings.a%23~/b[0][0]" is a text, but must be a number',
  ],
  ['compare', ['a', 'scenario', 'hash'], 1, '"a.scenario.hash" is a number, but must be a text'],
  ['compare', ['comparisons', 0, 'pairs', 'riskA'], undefined, '"comparisons[0].pairs.riskA" is missing'],
  [
    'compare',
    ['comparisons', 0, 'status'],
    'not compared',
    '"comparisons[0].status" is "not compared", but must be "compared"',
  ],
  [
    'compare',
    ['comparisons', 1, 'status'],
    'done',
    '"comparisons[1].status" is "done", but must be "compared" or "not compared"',
  ],
  [
    'compare',
    ['comparisons', 0, 'speeds', 'a', 'histogram', 'soft'],
    [],
    '"comparisons[0].speeds.a.histogram" has not as many bins',
  ],
  ['limits', ['cells', 1, 'risk'], 0.1, '"cells[1].risk" is a number, but must be an object or null'],
  ['limits', ['heights'], [], '"heights" holds 0 entries, but must hold 1'],
  ['limits', ['rows', 'values', 0], null, '"rows.values[0]" is null, but must be a number'],
  ['fit of samples', ['families', 0, 'family'], 'gamma', '"families[0].family" is "gamma", but must be'],
  [
    'fit of samples',
    ['families', 0, 'parameters', 0, 'low'],
    null,
    '"families[0].parameters[0].low" is null, but must be a number',
  ],
  ['fit of samples', ['quantiles'], [1], '"quantiles" does not hold 12 entries'],
  ['fit of trials', ['failures'], undefined, '"failures" is missing'],
  ['fit of trials', ['form'], 'guess', '"form" is "guess", but must be "samples", "trials" or "thrust stand"'],
  [
    'fit of a thrust stand',
    ['full', 'thrust', 'error'],
    'x',
    '"full.thrust.error" is a text, but must be a number or null',
  ],
  ['reconstruct', ['events', 0, 'name'], 'landing', '"events[0].name" is "landing", but must be'],
  ['reconstruct', ['measured', 0], [1, 2], '"measured[0]" is a list, but must be an object'],
  ['learn', ['inputs', 0, 'before'], [1, 2], '"inputs[0].before" holds 2 entries, but must hold 3'],
  ['learn', ['inputs'], [], '"inputs" holds 0 entries, but must hold 1'],
  ['learn', ['logs', 0, 'observed', 0, 'name'], 'speed', '"logs[0].observed[0].name" is "speed", but must be'],
];

describe('A result read back', () => {
  it.each(Object.entries(EXAMPLES))('of %s is the same', (_name, { result, read }) => {
    expect(read(JSON.stringify(result))).toEqual({ status: 'ok', value: JSON.parse(JSON.stringify(result)) });
  });

  it.each(DAMAGE)('of %s with %j as %j is refused, with the place', (kind, path, value, says) => {
    const read = EXAMPLES[kind].read(edited(EXAMPLES[kind].result, path, value));
    const messages = [expect.stringMatching(/^the result is damaged: .+\. Run `[a-z]+` again\.$/s)];
    expect(read).toEqual({ status: 'refused', messages });
    expect(read).toMatchObject({ messages: [expect.stringContaining(says)] });
  });

  it('is refused where a number is beyond all numbers, or something is nested without end', () => {
    const { result, read } = EXAMPLES.assess;
    const text = JSON.stringify(result);
    expect(read(text.replace(/"acceptableRisk":[^,]+/, '"acceptableRisk":1e999'))).toMatchObject({
      messages: [expect.stringContaining('"acceptableRisk" is Infinity, but must be between')],
    });
    const open =
      '{"form":"uncertain","kind":"varies from flight to flight","atLeast":null,"atMost":null,"distribution":{"family":"normal","sd":1,"mean":';
    const nested = `${open.repeat(20_000)}1${'}}'.repeat(20_000)}`;
    const deep = JSON.stringify(result).replace(/"value":\{[^{}]*\}/, `"value":${nested}`);
    expect(deep).toContain(nested);
    expect(read(deep)).toMatchObject({ messages: [expect.stringContaining('nested too deep')] });
  });

  it.each(Object.entries(EXAMPLES))(
    'of %s is judged as by another validator, and never throws, nor does its page, whatever one place of it is replaced by',
    async (_name, { result, command, read, page }) => {
      const schema = JSON.parse(readFileSync(`sim/${command}/result.schema.json`, 'utf8'));
      const validate = new Ajv({ strict: false }).compile(schema);
      let accepted = 0;
      for (const path of some(kindsOf(leaves(result)), 25)) {
        for (const other of [null, 'x', -1, {}]) {
          const text = edited(result, path, other);
          const value = JSON.parse(text);
          expect([path, other, wrongShape(value, schema) === null]).toEqual([path, other, validate(value)]);
          const again = read(text);
          if (again.status === 'refused')
            expect(again.messages[0]).toMatch(/damaged: .*"|schema version|of kind|no result/);
          else if (accepted++ % 4 === 0) await page(text);
        }
      }
      expect(accepted).toBeGreaterThan(5);
    },
  );
});
