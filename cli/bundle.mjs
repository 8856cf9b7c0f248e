/**
 * Makes the program that people start, dist/program/, of the compiled sources in dist/: a few hundred small files would take
 * half a second to load, here and in every worker thread.
 */
import { build } from 'rolldown';

await build({
  input: ['dist/cli/main.js', 'dist/sim/ensemble/worker.js'],
  platform: 'node',
  logLevel: 'warn',
  output: { dir: 'dist/program', cleanDir: true, format: 'esm', chunkFileNames: '[name]-[hash].js' },
});
