/**
 * The height rule on the real model: whole studies with seeds of their own against a reference flown with many flights.
 * Prints how often a height too risky was shown and how often the printed interval held the reference. Slow;
 * `npm run bench:rule -- [studies] [flights]`. The same questions with known risks are in test/decision/.
 */
import { argv } from 'node:process';

const dist = new URL('../../dist/', import.meta.url);
const load = (path) => import(new URL(path, dist).href);
const { readScenario } = await load('sim/scenario/file/read.js');
const { nominalDraw } = await load('sim/draws/drawer.js');
const { createThreadsFlyer } = await load('sim/ensemble/flyer-pool.js');
const { criteriaOf } = await load('sim/decision/criteria.js');
const { heightGrid } = await load('sim/decision/height-grid.js');
const { remember } = await load('sim/ensemble/flown.js');
const { studyHeights } = await load('sim/decision/study-heights.js');

const [studies, flights] = [Number(argv[2] ?? 4), Number(argv[3] ?? 1000)];
const REFERENCE_FLIGHTS = 8000;
const STEP = 10;
const read = readScenario(new URL('../../configs/burdock.yaml', import.meta.url).pathname, []);
if (read.status !== 'ok') throw new Error('configs/burdock.yaml does not read');
const { value: scenario } = read;
const { criteria: demanded, plan } = nominalDraw(scenario).inputs;
const limit = demanded.ground_impact_risk;
const criteria = criteriaOf(scenario);
const grid = heightGrid({ kind: 'standard' }, plan.throttle_up_height, 600);
if (grid.status !== 'ok') throw new Error(grid.messages.join('\n'));

const known = new Map();
const reference = createThreadsFlyer(scenario, 'reference', 2);
async function trueRisk(height) {
  if (!known.has(height)) {
    const ids = Uint32Array.from({ length: REFERENCE_FLIGHTS }, (_, id) => id);
    const [{ outcome }] = await reference.fly({ set: 'explore', ids, heights: [height], detail: 'outcomes' });
    known.set(height, outcome.filter((one) => one !== 0).length / REFERENCE_FLIGHTS);
  }
  return known.get(height);
}

const percent = (share) => `${(100 * share).toFixed(2)} %`;
let [shown, tooRisky, held] = [0, 0, 0];
for (let study = 1; study <= studies; study += 1) {
  const flyer = createThreadsFlyer(scenario, `rule ${study}`, 2);
  const request = { criteria, coarse: grid.value, step: STEP, planned: plan.throttle_up_height, flights };
  const { decision } = await studyHeights(remember(flyer, 'full'), request);
  await flyer.close();
  if (decision.latest === null) {
    console.log(`study ${study}: ${decision.status}`);
    continue;
  }
  const { risk } = decision.confirmed.at(-1).criteria[0];
  const truth = await trueRisk(decision.latest);
  shown += 1;
  if (truth > limit) tooRisky += 1;
  if (risk.lower <= truth && truth <= risk.upper) held += 1;
  console.log(
    `study ${study}: ${decision.latest} m, ${percent(risk.estimate)} (${percent(risk.lower)} to ${percent(risk.upper)}), reference ${percent(truth)}`,
  );
}
await reference.close();
console.log(
  `${shown} of ${studies} show a height; ${tooRisky} over the limit by the reference; ${held} intervals hold it.`,
);
