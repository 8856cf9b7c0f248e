/** What made a result: versions of the program, of the result's shape, of the draws and of the engine. */

/** Version of the program; a test holds it equal to the version in package.json. */
export const PROGRAM_VERSION = '0.1.0';
/** Goes up when the shape of a result changes. */
export const RESULT_SCHEMA = 3;
/** Goes up when a draw of the same seed, set and input means something else. */
export const DRAW_SCHEME = 3;

export interface Versions {
  readonly program: string;
  readonly resultSchema: number;
  readonly drawScheme: number;
  readonly node: string;
}

/** The versions of this program: results are compared or read only where these agree. */
export function presentVersions(): Versions {
  return {
    program: PROGRAM_VERSION,
    resultSchema: RESULT_SCHEMA,
    drawScheme: DRAW_SCHEME,
    node: process.versions.node,
  };
}
