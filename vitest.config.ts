import { defineConfig } from 'vitest/config';

/**
 * No verdict falls by the clock: a test waits for an event, and on a slow and busy machine it waits longer. This limit only
 * ends a test that hangs; it is far over what any test takes anywhere.
 */
const HANGS = 60 * 60_000;

export default defineConfig({
  test: {
    include: ['test/**/*.test.ts'],
    testTimeout: HANGS,
    hookTimeout: HANGS,
    teardownTimeout: HANGS,
    expect: { poll: { timeout: HANGS } },
    maxWorkers: '100%',
  },
});
