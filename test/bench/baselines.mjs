/**
 * The same flights in Python, for comparison: many at once in NumPy, and one by one with SciPy's solve_ivp
 * (test/bench/baselines/). The draws, inputs and noise, are written to a folder that python3 reads; there flying alone is
 * timed, here drawing the inputs and the gusts is in the flight. Processor time of one thread, as other work on the machine
 * would blur ratios between programs that run one after the other.
 *
 * Both sides fly Burdock as far as they share its equations. Shared: the air, the can, the arms in the wash, windmilling
 * blades, the centre of mass off the axis, each rotor's own thrust, the mean loss in the vortex ring, the power of stalled
 * blades, the pack, the stabiliser, the altimeter's formula and the suction at its vents, the person, the radio, the approach.
 * Switched off on both sides, because Python has none of it, by the overrides of SHARED: the integral term, the fluctuation in
 * the vortex ring, the start times of the motors, the slow opening of the arms. Python opens the arms at once; here the
 * strongest hinge that a scenario may have opens them within 8 ms. Here the full equations are worked out all the same,
 * with zeros; what a flight of them costs with nothing switched off stands in a row of its own.
 */
import { spawnSync } from 'node:child_process';
import { closeSync, mkdtempSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { cpuUsage, env } from 'node:process';

const dist = new URL('../../dist/', import.meta.url);
const { COLUMN_NAMES } = await import(new URL('sim/flight/record.js', dist).href);
const steps = { ...(await import(new URL('sim/flight/constants.js', dist).href)) };
const { CALL_OUT_STEP, GUST_STEP } = await import(new URL('sim/draws/draw.js', dist).href);
const { readScenario } = await import(new URL('sim/scenario/file/read.js', dist).href);
const { createMaker } = await import(new URL('sim/ensemble/fly-block.js', dist).href);

/** Switches off what Python does not fly (baselines/craft.py refuses to fly it). */
const SHARED = [
  'stabiliser.integral_gain=0/s',
  'rotors.ring_fluctuation=0',
  'rotors.start_time=0 s',
  'arms.hinge_torque=5 N m',
  'arms.own_torque_factor=1',
  'arms.friction=0',
];

const HEIGHT = 200;
/** A flight of 10 000 at once costs NumPy a fifth less than one of 4000: the last few are dear. */
const NUMPY_FLIGHTS = 4000;
const SCIPY_FLIGHTS = 16;
const TOLERANCES = [1e-6, 1e-3];
/** Noise is handed over for this long after the touchdown found here, s, should Python fly longer. */
const SPARE_TIME = 10;
/** For a flight that has no touchdown, s. */
const LONGEST_TIME = 90;
/** Far more outages than a flight meets. */
const OUTAGES = 32;

const SPEED = COLUMN_NAMES.indexOf('touchdown_speed');
const TIME = COLUMN_NAMES.indexOf('time');

/** Prints the rows for the scenario at `path`; one line if there is no python3 with numpy and scipy. `full` flies all of it. */
export function pythonBaselines({ path, seed, full, row, ms, ratio }) {
  const about = python(
    '-c',
    'import sys, numpy, scipy; print(sys.version.split()[0], numpy.__version__, scipy.__version__)',
  );
  if (about === null) {
    console.log('Python baselines: skipped, no python3 with numpy and scipy (in Debian python3-numpy, python3-scipy)');
    return;
  }
  const [version, numpy, scipy] = about.trim().split(' ');
  const read = readScenario(path, SHARED);
  if (read.status !== 'ok') throw new Error(read.messages.join('\n'));
  const maker = createMaker(read.value, seed);
  const ids = Array.from({ length: NUMPY_FLIGHTS }, (_, id) => id);
  const few = ids.slice(0, SCIPY_FLIGHTS);
  fly(maker, few);
  const flown = fly(maker, ids);
  const flownFull = fly(full, ids);
  const flownFew = fly(maker, Array.from({ length: 20 }, () => few).flat());
  const answer = flyInPython(maker, flown);
  if (answer === null) {
    console.log('Python baselines: failed, see above');
    return;
  }
  console.log(
    `\nPython ${version}, NumPy ${numpy}, SciPy ${scipy}: the same draws at ${HEIGHT} m, processor time of one thread`,
  );
  console.log(`Switched off on both sides, as Python has none of it: ${SHARED.join(', ')}`);
  row('one flight here, the same switched off', ms(flown.milliseconds), `${ids.length} flights`);
  row('one flight here, nothing switched off', ms(flownFull.milliseconds), `${ids.length} flights`);
  const rows = (name, there, here) => {
    const cost = (1000 * there.seconds) / there.outcome.length;
    row(name, ms(cost), `${ratio(cost / here.milliseconds)} of one flight here, ${there.outcome.length} flights`);
    row('  outcomes alike', ...agreement(flown, there));
  };
  rows('NumPy, all at once', answer.numpy, flown);
  TOLERANCES.forEach((tolerance, i) => {
    rows(`SciPy solve_ivp one by one, RK45 to ${tolerance.toExponential()}`, answer.scipy[i], flownFew);
  });
}

/** What python3 prints, or null if it cannot be run or fails. */
function python(...args) {
  // One thread. The two names are set on some machines for old builds of OpenBLAS and slow down a current one.
  const { OPENBLAS_CORETYPE, OPENBLAS_L2_SIZE, ...rest } = env;
  const threads = { OPENBLAS_NUM_THREADS: '1', OMP_NUM_THREADS: '1', MKL_NUM_THREADS: '1' };
  const quiet = args[0] === '-c' ? 'ignore' : 'inherit';
  const run = spawnSync('python3', ['-B', ...args], {
    env: { ...rest, ...threads },
    encoding: 'utf8',
    maxBuffer: 2 ** 28,
    stdio: ['ignore', 'pipe', quiet],
  });
  return run.status === 0 ? run.stdout : null;
}

/** Flies here on one thread: outcomes, touchdown speeds and times by flight, and the processor time of one flight. */
function fly(maker, ids) {
  const outcome = [];
  const speed = [];
  const time = [];
  const begin = cpuUsage();
  for (const id of ids)
    maker.model.fly(maker.drawer.draw('explore', id), [HEIGHT], (_, record) => {
      outcome.push(record.outcome);
      speed.push(record.values[SPEED]);
      time.push(record.values[TIME]);
    });
  const { user, system } = cpuUsage(begin);
  return { ids, outcome, speed, time, milliseconds: (user + system) / 1000 / ids.length };
}

function flyInPython(maker, flown) {
  const folder = mkdtempSync(join(tmpdir(), 'fallmargin-bench-'));
  try {
    writeDraws(maker, flown, folder);
    const printed = python(new URL('baselines/fly.py', import.meta.url).pathname, folder);
    return printed === null ? null : JSON.parse(printed);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** request.json: what to fly, with the inputs. noise.bin: doubles, as baselines/fly.py reads them. */
function writeDraws(maker, { ids, time }, folder) {
  const spans = time.map((one) => (Number.isNaN(one) ? LONGEST_TIME : one) + SPARE_TIME);
  const nodes = spans.map((span) => Math.ceil(span / GUST_STEP));
  const readings = spans.map((span) => Math.ceil(span / CALL_OUT_STEP));
  const inputs = [];
  const file = openSync(join(folder, 'noise.bin'), 'w');
  const put = (count, columns, at) =>
    writeSync(
      file,
      Float64Array.from({ length: count * columns }, (_, i) => at(Math.floor(i / columns), i % columns)),
    );
  ids.forEach((id, i) => {
    const draw = maker.drawer.draw('explore', id);
    inputs.push(structuredClone(draw.inputs));
    const { gusts, throttle } = draw.noise;
    put(nodes[i], 4, (node, column) => (column < 3 ? gusts.at(node, column) : throttle.at(node, 0)));
  });
  ids.forEach((id, i) => {
    const { callOut } = maker.drawer.draw('explore', id).noise;
    put(readings[i], 1, (node) => callOut.at(node, 0));
  });
  for (const id of ids) {
    const { outages } = maker.drawer.draw('explore', id).noise;
    put(OUTAGES, 2, (j, column) => outages.at(j, column));
  }
  closeSync(file);
  const asked = { height: HEIGHT, steps, scipy_flights: SCIPY_FLIGHTS, tolerances: TOLERANCES };
  writeFileSync(join(folder, 'request.json'), JSON.stringify({ ...asked, nodes, readings, inputs }));
}

/** How many outcomes are the same, and how far the touchdown speeds lie apart. */
function agreement(here, there) {
  const count = there.outcome.length;
  const same = there.outcome.filter((one, i) => one === here.outcome[i]).length;
  const apart = there.speed
    .map((one, i) => (one === null ? Number.NaN : Math.abs(one - here.speed[i])))
    .filter((one) => !Number.isNaN(one))
    .sort((a, b) => a - b);
  const share = (part) => apart[Math.max(0, Math.ceil(part * apart.length) - 1)].toPrecision(2);
  return [`${same} of ${count}`, `touchdown speed apart by ${share(0.5)} m/s (median), ${share(0.95)} m/s (95 %)`];
}
