import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import { resultSchemas } from '../../sim/schemas/result-schemas.js';
import { EXAMPLES } from './results.js';

describe('The JSON Schemas of the results', () => {
  it('as committed are those that the types give; run "npm run schema" after a change', () => {
    const schemas = resultSchemas();
    const stale = [...schemas].filter(([file, text]) => readFileSync(file, 'utf8') !== text);
    expect(stale.map(([file]) => file)).toEqual([]);
    const commands = new Set(Object.values(EXAMPLES).map(({ command }) => `sim/${command}/result.schema.json`));
    expect(new Set(schemas.keys())).toEqual(commands);
  });

  it.each(Object.entries(EXAMPLES))('hold for a result of %s', (_name, { command, result }) => {
    const schema = JSON.parse(readFileSync(`sim/${command}/result.schema.json`, 'utf8'));
    const ajv = new Ajv({ strict: false });
    ajv.validate(schema, JSON.parse(JSON.stringify(result)));
    expect(ajv.errors).toBeNull();
  });
});
