/** JSON Schema (draft 7) of scenario files, for completion, hovers and checks in editors. */
import { SCENARIO } from './definition/definition.js';
import { DIMENSIONS } from './definition/dimensions.js';
import type { Leaf } from './definition/leaves.js';
import type { Chance, Dimension, Entry, List, Quantity, Section } from './definition/shapes.js';
import { describeLeaf } from './describe.js';
import { FAMILIES, FAMILY_NAMES, type ParameterRule } from './file/families.js';
import { inputKeys, SOURCES } from './file/input.js';
import { KINDS, UNMEASURED } from './file/kind.js';
import { NONE } from './file/layer.js';
import type { Range } from './file/range.js';
import { mustBeGiven } from './file/standard.js';

type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };
type Schema = Readonly<Record<string, Json>>;

/** Schemas that are used in several places, by name. */
type Definitions = Map<string, Schema>;

const NUMBER = '[-+]?(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)(?:[eE][-+]?[0-9]+)?';
/** A number and something behind it; whether that is a fitting unit only the program can tell. */
const WITH_UNIT = `^\\s*${NUMBER}\\s*[^0-9\\s].*$`;
const PURE = `^\\s*${NUMBER}\\s*%?\\s*$`;

/** The schema as text, as it is committed beside the scenarios. */
export function schemaText(): string {
  return `${JSON.stringify(scenarioSchema(), null, 1)}\n`;
}

export function scenarioSchema(): Schema {
  const definitions: Definitions = new Map();
  const body = sectionSchema(SCENARIO, definitions);
  const properties = {
    extends: text('Another scenario file, relative to this one, of which this one gives only what differs.'),
    ...(body.properties as Schema),
    correlations: correlationsSchema(),
  };
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: 'fallmargin scenario',
    ...body,
    properties,
    if: { not: { required: ['extends'] } },
    // biome-ignore lint/suspicious/noThenProperty: a keyword of JSON Schema
    then: requiredIn(SCENARIO),
    definitions: Object.fromEntries([...definitions].sort(([a], [b]) => (a < b ? -1 : 1))),
  };
}

function text(description: string): Schema {
  return { type: 'string', minLength: 1, description };
}

function object(properties: Schema, required: readonly string[] = []): Schema {
  return { type: 'object', additionalProperties: false, properties, ...(required.length === 0 ? {} : { required }) };
}

function sectionSchema(section: Section, definitions: Definitions): Schema {
  const entries = Object.entries(section.entries).filter(([, entry]) => entry.shape !== 'luck');
  const properties = Object.fromEntries(entries.map(([key, entry]) => [key, entrySchema(entry, definitions)]));
  return { description: section.doc, ...object(properties) };
}

function entrySchema(entry: Entry, definitions: Definitions): Schema {
  if (entry.shape !== 'section') return { description: describeLeaf(entry), ...leafSchema(entry, definitions) };
  const schema = sectionSchema(entry, definitions);
  return entry.optional ? { description: entry.doc, anyOf: [schema, { const: NONE }] } : schema;
}

function leafSchema(leaf: Leaf, definitions: Definitions): Schema {
  switch (leaf.shape) {
    case 'quantity':
    case 'chance':
      return inputSchema(leaf, definitions);
    case 'choice':
      return { enum: Object.keys(leaf.options) };
    case 'text':
      return leaf.standard === undefined ? { type: 'string', minLength: 1 } : { type: 'string' };
    case 'table': {
      const row = { type: 'array', items: leaf.columns.map(({ dimension }) => value(dimension, definitions)) };
      const { length } = leaf.columns;
      const rows = { type: 'array', minItems: 2, items: { ...row, minItems: length, additionalItems: false } };
      return { anyOf: [rows, { const: NONE }] };
    }
    case 'list':
      return listSchema(leaf, definitions);
    case 'luck':
      return {};
  }
}

function listSchema({ of }: List, definitions: Definitions): Schema {
  const required = Object.entries(of.entries).flatMap(([name, entry]) =>
    'optional' in entry && entry.optional === true ? [] : [name],
  );
  return { type: 'array', items: { ...sectionSchema(of, definitions), required } };
}

function inputSchema(leaf: Quantity | Chance, definitions: Definitions): Schema {
  const dimension = leaf.shape === 'quantity' ? leaf.dimension : 'ratio';
  const decided = leaf.shape === 'quantity' && leaf.fixed === true;
  const end = leaf.perfect === undefined ? '' : ' or none';
  const name = `${decided ? 'decided' : 'uncertain'} ${leaf.shape === 'chance' ? 'chance' : classOf(dimension)}${end}`;
  const full = define(name, definitions, () => fullSchema(leaf, classOf(dimension), definitions));
  const none = leaf.shape === 'quantity' && leaf.optional === true ? [{ const: NONE }] : [];
  return { anyOf: [value(dimension, definitions), full, ...none] };
}

/** A schema cannot tell one unit from another: it knows numbers with a unit and numbers without. */
type NumberClass = 'ratio' | 'value';

function classOf(dimension: Dimension): NumberClass {
  return dimension === 'ratio' ? 'ratio' : 'value';
}

/** An input written as a section: a value with its provenance, or a distribution. */
function fullSchema(leaf: Quantity | Chance, numbers: NumberClass, definitions: Definitions): Schema {
  const one = number(numbers, definitions);
  const all: Schema = {
    value: leaf.perfect === undefined ? one : { anyOf: [one, { const: NONE }] },
    ...familySchemas(numbers, definitions),
    samples: define(`measured ${numbers}`, definitions, () => samplesSchema(one)),
    trials: { type: 'integer', minimum: 1, description: 'How often it was tried.' },
    failures: { type: 'integer', minimum: 0, description: 'How often it failed.' },
    ...boundSchemas(one),
    kind: { enum: KINDS, description: 'Whether it differs between flights or is one value that nobody knows yet.' },
    source: { enum: SOURCES, description: 'Where it comes from.' },
    logs: { type: 'integer', minimum: 1, description: 'From how many flight logs it was learnt.' },
    spread_left: { description: 'Share of the spread of the guess that is left.', ...number('ratio', definitions) },
    note: { type: 'string', description: 'Anything to remember about it; shown in the report.' },
  };
  const keys = inputKeys(leaf);
  const forms = ['value', 'samples', ...FAMILY_NAMES, 'trials'].filter((key) => keys.includes(key));
  const needed = (form: string) => {
    if (form === 'trials') return ['trials', 'failures'];
    return form === 'value' || leaf.shape === 'chance' ? [form] : [form, 'kind'];
  };
  return {
    ...object(Object.fromEntries(keys.map((key) => [key, all[key]]))),
    oneOf: forms.map((form) => ({ required: needed(form) })),
  };
}

function familySchemas(numbers: NumberClass, definitions: Definitions): Schema {
  const dimension = numbers === 'ratio' ? 'ratio' : 'length'; // any dimension stands for all that have a unit
  const leaf: Range = { dimension, least: 0, most: 1, aboveLeast: false, whole: false, words: '' };
  const familySchema = (rules: readonly ParameterRule[]) => {
    const parameters = rules.map((rule) => [
      rule.name,
      parameter(rule, classOf(rule.range(leaf).dimension), definitions),
    ]);
    const required = rules.filter((rule) => rule.standard === undefined || numbers === 'value');
    return object(
      Object.fromEntries(parameters),
      required.map((rule) => rule.name),
    );
  };
  return Object.fromEntries(
    FAMILY_NAMES.map((family) => [
      family,
      define(`${family} ${numbers}`, definitions, () => familySchema(FAMILIES[family])),
    ]),
  );
}

/** A parameter is a number, or itself a fixed value that nobody has measured. */
function parameter(rule: ParameterRule, numbers: NumberClass, definitions: Definitions): Schema {
  const one = number(numbers, definitions);
  const unmeasured = define(`unmeasured ${numbers}`, definitions, () => ({
    ...object({ ...familySchemas(numbers, definitions), ...boundSchemas(one), kind: { const: UNMEASURED } }, ['kind']),
    oneOf: FAMILY_NAMES.map((family) => ({ required: [family] })),
  }));
  return { description: rule.doc, anyOf: [one, unmeasured] };
}

function samplesSchema(one: Schema): Schema {
  const file = text('A CSV file, relative to this one.');
  const column = { file, column: text('Name of its column.'), unit: text('Unit of the column.') };
  const list = { type: 'array', minItems: 2, items: one };
  return { description: 'Measured values.', anyOf: [list, object(column, ['file', 'column'])] };
}

function boundSchemas(one: Schema): Schema {
  return { at_least: one, at_most: one };
}

function number(numbers: NumberClass, definitions: Definitions): Schema {
  return define(numbers, definitions, () =>
    numbers === 'ratio'
      ? { description: 'A number or a percentage.', anyOf: [{ type: 'number' }, { type: 'string', pattern: PURE }] }
      : { description: 'A number with its unit.', type: 'string', pattern: WITH_UNIT },
  );
}

/** One value of a dimension, with an example for editors. */
function value(dimension: Dimension, definitions: Definitions): Schema {
  if (dimension === 'ratio') return number('ratio', definitions);
  const { named, example } = DIMENSIONS[dimension];
  return define(dimension, definitions, () => ({
    description: `${named}, such as ${example}`,
    type: 'string',
    pattern: WITH_UNIT,
    examples: [example],
  }));
}

function define(name: string, definitions: Definitions, build: () => Schema): Schema {
  const key = name.replaceAll(' ', '_');
  if (!definitions.has(key)) {
    definitions.set(key, {}); // holds the name while what it is built from asks for it again
    definitions.set(key, build());
  }
  return { $ref: `#/definitions/${key}` };
}

function correlationsSchema(): Schema {
  const between = {
    type: 'array',
    items: { type: 'string' },
    minItems: 2,
    maxItems: 2,
    description: 'Paths of two inputs, as can.mass.',
  };
  const rank = { type: 'number', minimum: -1, maximum: 1, description: 'Rank correlation (Spearman).' };
  return {
    description: 'Pairs of inputs of one kind that go together.',
    type: 'array',
    items: object({ between, rank }, ['between', 'rank']),
  };
}

/** What a file that extends no other must have. */
function requiredIn(section: Section): Schema {
  const entries = Object.entries(section.entries);
  const required = entries.filter(([, entry]) => mustBeGiven(entry)).map(([key]) => key);
  const sections = entries.flatMap(([key, entry]) =>
    entry.shape === 'section' ? [[key, requiredIn(entry)] as const] : [],
  );
  const inner = sections.filter(([, schema]) => Object.keys(schema).length > 0);
  return {
    ...(required.length === 0 ? {} : { required }),
    ...(inner.length === 0 ? {} : { properties: Object.fromEntries(inner) }),
  };
}
