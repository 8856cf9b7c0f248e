import { existsSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import { defineConfig } from 'vitest/config';

/**
 * No verdict falls by the clock: a test waits for an event, and on a slow and busy machine it waits longer. This limit only
 * ends a test that hangs; it is far over what any test takes anywhere.
 */
const HANGS = 60 * 60_000;

/** The folders of pure functions: no study is flown in them, no page is drawn, no program is started. */
const PURE = ['basics', 'statistics', 'distributions', 'scenario', 'draws', 'model'].map(
  (folder) => `test/${folder}/**/*.test.ts`,
);
/** Laws that many flights decide: few of them in `npm test`, as many as the figure deserves in `npm run verify`. */
const LAWS = ['test/**/*.verify.ts'];

/**
 * Tests of whole flights and studies run the compiled modules, which users run: vitest's own translation of the sources
 * reaches every imported name through an object, and a flight takes two or three times as long. A test imports
 * '../../sim/x.js' as ever and gets dist/sim/x.js; test/built.ts builds where a source is newer.
 */
const compiled = {
  name: 'compiled',
  enforce: 'pre' as const,
  resolveId(name: string, importer: string | undefined) {
    if (importer === undefined || !name.startsWith('.') || !importer.startsWith(resolve('test'))) return null;
    const path = relative('.', resolve(importer, '..', name));
    const isOwn = /^(cli|report|sim)\b/.test(path) && existsSync(path.replace(/\.js$/, '.ts'));
    return isOwn ? resolve('dist', path) : null;
  },
};
const BUILT = { extends: true as const, plugins: [compiled] };
const built = { globalSetup: 'test/built.ts', server: { deps: { external: [/\/dist\//] } } };

export default defineConfig({
  test: {
    testTimeout: HANGS,
    hookTimeout: HANGS,
    teardownTimeout: HANGS,
    expect: { poll: { timeout: HANGS } },
    maxWorkers: '100%',
    projects: [
      { extends: true, test: { name: 'fast', include: PURE, isolate: false } },
      { ...BUILT, test: { ...built, name: 'whole', include: ['test/**/*.test.ts'], exclude: PURE } },
      { ...BUILT, test: { ...built, name: 'laws', include: LAWS } },
      { ...BUILT, test: { ...built, name: 'verify', include: LAWS, env: { IN_FULL: 'yes' } } },
    ],
  },
});
