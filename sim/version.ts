/** Version of the program; a test holds it equal to the one in package.json. */
export const PROGRAM_VERSION = '0.1.0';
