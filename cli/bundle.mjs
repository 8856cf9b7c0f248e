/**
 * Makes the program that people start, dist/program/, of the compiled sources in dist/: a few hundred small files would take
 * half a second to load, here and in every worker thread. What it needs of other packages is inside, with their notices.
 */
import { build } from 'rolldown';
import { notices } from './notices.mjs';

await build({
  input: ['dist/cli/main.js', 'dist/sim/ensemble/worker.js'],
  platform: 'node',
  logLevel: 'warn',
  plugins: [notices()],
  output: { dir: 'dist/program', cleanDir: true, format: 'esm', chunkFileNames: '[name]-[hash].js' },
});
