/** Every page is held to the rules of HTML, and every chart to those of vega-lite, in the same way. */
import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { HtmlValidate } from 'html-validate';
import { type ChartSpec, compileChart, type Draw } from '../../report/kit/draw.js';

const validator = new HtmlValidate({ root: true, extends: ['html-validate:recommended'] });
const schema: object = createRequire(import.meta.url)('vega-lite/vega-lite-schema.json');
const keepsToSchema = new Ajv({ strict: false, allowUnionTypes: true, validateFormats: false }).compile(schema);

export async function htmlComplaints(html: string): Promise<readonly string[]> {
  const { results } = await validator.validateString(html);
  return results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, line }) => `${line}: ${ruleId}: ${message}`),
  );
}

/** What vega-lite warns of, what breaks its own JSON Schema, and numbers that are not finite. */
export function chartComplaints(spec: ChartSpec): readonly string[] {
  const found: string[] = [];
  compileChart(spec, (message) => found.push(message));
  if (!keepsToSchema(JSON.parse(JSON.stringify(spec)))) found.push("breaks vega-lite's schema");
  JSON.stringify(spec, (key, value) => {
    if (typeof value === 'number' && !Number.isFinite(value)) found.push(`${key} is ${value}`);
    return value;
  });
  return found;
}

export interface Drawn {
  readonly spec: ChartSpec;
  readonly label: string;
}

/** A drawing that keeps what it is asked to draw in place of drawing it. */
export function collector(): { readonly drawn: readonly Drawn[]; readonly collect: Draw } {
  const drawn: Drawn[] = [];
  const collect: Draw = async (spec, label) => {
    drawn.push({ spec, label });
    return '<svg role="img"></svg>';
  };
  return { drawn, collect };
}

/** Complaints about any of the charts, each with the label of its chart. */
export function complaintsAbout(drawn: readonly Drawn[]): readonly string[] {
  return drawn.flatMap(({ spec, label }) => chartComplaints(spec).map((complaint) => `${label}: ${complaint}`));
}
