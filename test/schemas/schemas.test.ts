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

  it('are written in words that the check of shapes knows', () => {
    const known =
      /^(\$schema|\$ref|definitions|description|anyOf|type|const|enum|properties|required|additionalProperties|items|minItems|maxItems)$/;
    const unknown = (node: unknown): readonly string[] => {
      if (Array.isArray(node)) return node.flatMap(unknown);
      if (node === null || typeof node !== 'object') return [];
      return Object.entries(node).flatMap(([word, part]) => {
        if (word === 'enum' || word === 'required') return [];
        if (word === 'properties' || word === 'definitions') return Object.values(part).flatMap(unknown);
        return known.test(word) ? unknown(part) : [word];
      });
    };
    for (const { command } of Object.values(EXAMPLES))
      expect(unknown(JSON.parse(readFileSync(`sim/${command}/result.schema.json`, 'utf8')))).toEqual([]);
  });

  it.each(Object.entries(EXAMPLES))('hold for a result of %s', (_name, { command, result }) => {
    const schema = JSON.parse(readFileSync(`sim/${command}/result.schema.json`, 'utf8'));
    const ajv = new Ajv({ strict: false });
    ajv.validate(schema, JSON.parse(JSON.stringify(result)));
    expect(ajv.errors).toBeNull();
  });
});
