/**
 * Time and memory of a whole study by its number of flights, on the built program:
 *
 *   node test/bench/scaling.mjs 1000 10000 100000 --heights planned --threads 2
 *
 * Numbers are sizes; other words go to `assess`. Peak memory is that of the whole process; bytes a flight are the growth
 * of the peak from the row above. Nothing here passes or fails.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';

const program = new URL('../../dist/program/main.js', import.meta.url).pathname;
const scenario = new URL('../../configs/burdock.yaml', import.meta.url).pathname;
/** Said by the child when it ends: what the system counted for it, all its threads together. */
const TELL = `data:text/javascript,import { writeSync } from 'node:fs';
process.on('exit', () => writeSync(3, JSON.stringify(process.resourceUsage())));`;

const words = process.argv.slice(2);
const isSize = (word, index) => /^\d+(e\d)?$/.test(word) && !words[index - 1]?.startsWith('--');
const sizes = words.filter(isSize).map(Number);
const options = words.filter((word, index) => !isSize(word, index));
if (sizes.length === 0) throw new Error('Name the sizes, such as: node test/bench/scaling.mjs 1000 10000');

async function flown(flights) {
  const folder = mkdtempSync(join(tmpdir(), 'fallmargin-scaling-'));
  const start = performance.now();
  const child = spawn(
    process.execPath,
    ['--import', TELL, program, 'assess', scenario, '--flights', `${flights}`, '--quiet', '--out', 'study', ...options],
    { cwd: folder, stdio: ['ignore', 'ignore', 'inherit', 'pipe'] },
  );
  let told = '';
  child.stdio[3].on('data', (data) => {
    told += data;
  });
  const code = await new Promise((done) => child.once('close', done));
  rmSync(folder, { recursive: true });
  if (code !== 0 && code !== 1) throw new Error(`${flights} flights ended with code ${code}`);
  const { userCPUTime, systemCPUTime, maxRSS } = JSON.parse(told);
  return { wall: (performance.now() - start) / 1000, cpu: (userCPUTime + systemCPUTime) / 1e6, peak: maxRSS * 1024 };
}

const cells = (row) => console.log(row.map((cell, index) => String(cell).padStart([9, 9, 9, 9, 14][index])).join(' '));
cells(['flights', 'wall s', 'CPU s', 'peak MB', 'bytes a flight']);
let before = null;
for (const flights of sizes) {
  const { wall, cpu, peak } = await flown(flights);
  const growth = before && (peak - before.peak) / (flights - before.flights);
  cells([flights, wall.toFixed(1), cpu.toFixed(1), (peak / 1e6).toFixed(0), growth === null ? '' : growth.toFixed(0)]);
  before = { flights, peak };
}
