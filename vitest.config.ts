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

export default defineConfig({
  test: {
    testTimeout: HANGS,
    hookTimeout: HANGS,
    teardownTimeout: HANGS,
    expect: { poll: { timeout: HANGS } },
    maxWorkers: '100%',
    projects: [
      { extends: true, test: { name: 'fast', include: PURE } },
      { extends: true, test: { name: 'whole', include: ['test/**/*.test.ts'], exclude: PURE } },
      { extends: true, test: { name: 'laws', include: LAWS } },
      { extends: true, test: { name: 'verify', include: LAWS, env: { IN_FULL: 'yes' } } },
    ],
  },
});
