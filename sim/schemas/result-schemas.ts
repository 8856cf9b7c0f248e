/**
 * JSON Schemas of the results, made from their TypeScript types with the doc comments as descriptions: one beside each type,
 * for the reader of that result and for anybody's own program.
 */
import {
  type CompletedConfig,
  createFormatter,
  createParser,
  createProgram,
  DEFAULT_CONFIG,
  SchemaGenerator,
  StringType,
  type SubNodeParser,
} from 'ts-json-schema-generator';

/** The type of each command's result. */
const TYPES = {
  assess: 'AssessResult',
  compare: 'CompareResult',
  limits: 'LimitsResult',
  fit: 'FitResult',
  reconstruct: 'ReconstructResult',
  learn: 'LearnResult',
  trace: 'TraceResult',
} as const;

/**
 * Paths into a scenario are types reckoned from its whole definition, which is more than the maker of schemas can follow: in a
 * schema they are texts.
 */
const pathsAsText: SubNodeParser = {
  supportsNode: (node) => /^PathTo</.test(node.getText?.() ?? ''),
  createType: () => new StringType(),
};

/** The text of each schema by its file, to be run from the top folder; the types themselves are checked by the compiler. */
export function resultSchemas(): ReadonlyMap<string, string> {
  const config: CompletedConfig = {
    ...DEFAULT_CONFIG,
    path: 'sim/*/result.ts',
    tsconfig: 'tsconfig.json',
    skipTypeCheck: true,
    topRef: false,
  };
  const program = createProgram(config);
  const generator = new SchemaGenerator(
    program,
    createParser(program, config, (parsers) => parsers.addNodeParser(pathsAsText)),
    createFormatter(config),
    config,
  );
  const schemas = Object.entries(TYPES).map(([command, type]) => {
    const text = `${JSON.stringify(generator.createSchema(type), null, 2)}\n`;
    return [`sim/${command}/result.schema.json`, text] as const;
  });
  return new Map(schemas);
}
