/**
 * What things cost, as ratios measured in one run on this machine: `npm run bench`. Nothing here passes or fails; the
 * load of the machine stands beside the figures. Runs on the built program.
 */
import { execFileSync } from 'node:child_process';
import { cpus, loadavg } from 'node:os';
import { performance } from 'node:perf_hooks';
import { pythonBaselines } from './baselines.mjs';

const dist = new URL('../../dist/', import.meta.url);
const load = (path) => import(new URL(path, dist).href);
const { readScenario } = await load('sim/scenario/file/read.js');
const { createMaker } = await load('sim/ensemble/fly-block.js');
const { createSerialFlyer } = await load('sim/ensemble/serial-flyer.js');
const { createThreadsFlyer } = await load('sim/ensemble/flyer-pool.js');

const root = new URL('../../', import.meta.url).pathname;
const SEED = '1';
const read = readScenario(`${root}configs/burdock.yaml`, []);
if (read.status !== 'ok') throw new Error('configs/burdock.yaml does not read');
const { value: scenario } = read;
const idsTo = (count) => Uint32Array.from({ length: count }, (_, id) => id);

const row = (name, value, note = '') => console.log(`${name.padEnd(46)} ${value.padStart(12)}  ${note}`);
const ms = (value) => `${value.toPrecision(3)} ms`;
const ratio = (value) => `x ${value.toPrecision(3)}`;

async function timed(work) {
  const begin = performance.now();
  await work();
  return performance.now() - begin;
}

console.log(
  `${cpus().length} x ${cpus()[0]?.model}, Node ${process.versions.node}, load ${loadavg()
    .map((l) => l.toFixed(2))
    .join(' ')}\n`,
);

// One warm core.
const maker = createMaker(scenario, SEED);
const fly = (ids, height) => {
  for (const id of ids) maker.model.fly(maker.drawer.draw('explore', id), [height], () => {});
};
const FLIGHTS = 600;
const WARM_UP = 3000;
const PASSES = 5;
const ids = idsTo(FLIGHTS);
/** Milliseconds a flight: the middle one of several passes over the same flights. */
async function perFlight(pass) {
  const costs = [];
  for (let k = 0; k < PASSES; k += 1) costs.push((await timed(pass)) / FLIGHTS);
  return costs.sort((a, b) => a - b)[Math.floor(PASSES / 2)];
}
fly(idsTo(WARM_UP), 200);
const at200 = await perFlight(() => fly(ids, 200));
row('one flight at 200 m, draws and gusts included', ms(at200));
for (const height of [120, 400]) {
  const cost = await perFlight(() => fly(ids, height));
  row(`one flight at ${height} m`, ms(cost), `${ratio(cost / at200)} of 200 m`);
}
const drawAll = () => {
  for (const id of ids) maker.drawer.draw('explore', id);
};
const draws = await perFlight(drawAll);
row('drawing the inputs alone', ms(draws), `${ratio(draws / at200)} of a flight`);
const heights = [80, 120, 160, 200, 250, 300];
const flyAll = () => {
  for (const id of ids) maker.model.fly(maker.drawer.draw('explore', id), heights, () => {});
};
const shared = await perFlight(flyAll);
let single = 0;
for (const height of heights) single += await perFlight(() => fly(ids, height));
row('six heights with one fall', ms(shared), `${ratio(shared / single)} of six flights alone`);

// Threads, warm workers.
const batch = (count) => ({ set: 'explore', ids: idsTo(count), heights: [200], detail: 'outcomes' });
const serial = createSerialFlyer(createMaker(scenario, SEED));
const two = createThreadsFlyer(scenario, SEED, 2);
await serial.fly(batch(400));
await two.fly(batch(3000));
const one = await timed(() => serial.fly(batch(2000)));
const both = await timed(() => two.fly(batch(2000)));
row('two threads', ms(both / 2000), `${ratio(one / both)} the flights of one thread`);
await serial.close();
await two.close();

// The program as a whole.
const cli = (...args) =>
  timed(() =>
    execFileSync(process.execPath, [new URL('program/main.js', dist).pathname, ...args], { stdio: 'ignore' }),
  );
const quietly = async (...args) => {
  try {
    return await cli(...args);
  } catch {
    return Number.NaN;
  }
};
row('start of --help', ms(await cli('--help')));
row('check', ms(await cli('check', `${root}configs/burdock.yaml`)));
const whole = ['assess', `${root}configs/burdock.yaml`, '--flights', '2000', '--json', '--quiet', '--threads', '2'];
const planned = await quietly(...whole, '--heights', 'planned');
const study = await quietly(...whole);
row('assess, 2000 flights, planned height alone', ms(planned));
row('assess, 2000 flights, whole', ms(study), `${ratio(study / planned)} of the planned height alone`);

pythonBaselines({ path: `${root}configs/burdock.yaml`, seed: SEED, full: maker, row, ms, ratio });
