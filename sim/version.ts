import { DRAW_SCHEME, RESULT_SCHEMA, type Versions } from './result/result.js';

/** Version of the program; a test holds it equal to the one in package.json. */
export const PROGRAM_VERSION = '0.1.0';

/** What made a result: a result is compared or read only with its like. */
export function presentVersions(): Versions {
  return {
    program: PROGRAM_VERSION,
    resultSchema: RESULT_SCHEMA,
    drawScheme: DRAW_SCHEME,
    node: process.versions.node,
  };
}
