import { readdirSync, readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { scenarioSchema, schemaText } from '../../sim/scenario/schema.js';
import { starterScenario } from '../../sim/scenario/starter.js';

const FILE = 'configs/scenario.schema.json';
const configs = readdirSync('configs').filter((name) => name.endsWith('.yaml'));
const burdock = readFileSync('configs/burdock.yaml', 'utf8');
const validate = new Ajv({ strict: true, strictTypes: false, strictRequired: false }).compile(scenarioSchema());

describe('the JSON Schema', () => {
  test('as committed is the one that the definition gives; run "npm run schema" after a change', () => {
    expect(readFileSync(FILE, 'utf8') === schemaText()).toBe(true);
  });

  test.each(configs)('accepts %s, which names it in its first line', (name) => {
    const text = readFileSync(`configs/${name}`, 'utf8');
    validate(parse(text));
    expect(validate.errors ?? []).toEqual([]);
    expect(text.split('\n', 1)[0]).toBe('# yaml-language-server: $schema=scenario.schema.json');
  });

  test('accepts the starter once its decisions are made', () => {
    validate(parse(starterScenario({ 'plan.throttle_up_height': '233 m', 'criteria.ground_impact_risk': '4 %' })));
    expect(validate.errors ?? []).toEqual([]);
  });

  test.each([
    ['an unknown key', 'can:\n', 'can:\n  masss: 5 g\n'],
    ['an unknown section', 'can:\n', 'cann:\n'],
    ['a missing unit', 'diameter: { value: 80 mm,', 'diameter: { value: 80,'],
    ['a missing entry', '  cue: call-out\n', ''],
    ['a missing section', /^pad:\n(?: .*\n)+/m, ''],
    ['a choice that does not exist', 'cue: call-out', 'cue: callout'],
    ['a distribution without its kind', '    kind: varies from flight to flight\n', ''],
    ['a misspelt parameter', 'sd: 5 g', 'std: 5 g'],
    [
      'a distribution for a decision',
      'throttle_up_height: 250 m',
      'throttle_up_height: { normal: { mean: 250 m, sd: 5 m } }',
    ],
    ['a source that does not exist', 'source: measured', 'source: heard'],
    ['trials without failures', 'trials: 240, failures: 0', 'trials: 240'],
    ['a percentage in place of a length', 'radius: 60 m', 'radius: 60'],
  ])('refuses %s', (_, good, bad) => {
    const text = burdock.replace(good, bad);
    expect(text).not.toBe(burdock);
    expect(validate(parse(text))).toBe(false);
  });

  test('does not ask a variant for what the extended file has', () => {
    expect(validate({ extends: 'burdock.yaml', plan: { cue: 'picture' } })).toBe(true);
    expect(validate({ plan: { cue: 'picture' } })).toBe(false);
  });

  test('has the sentence of every entry for hovers', () => {
    const { can } = scenarioSchema().properties as Record<
      string,
      { properties: Record<string, { description: string }> }
    >;
    expect(can.properties.mass.description).toMatch(
      /^Mass at ejection, everything on board\. A mass above 0 g, at most 25 kg\. How to measure it: Weigh .*\.$/,
    );
  });
});
