import { beforeAll, describe, expect, test } from 'vitest';
import { learnPage, renderLearn } from '../../../report/learn/learn.js';
import { createMaker } from '../../../sim/ensemble/fly-block.js';
import { createSerialFlyer } from '../../../sim/ensemble/serial-flyer.js';
import { learn, worldIds } from '../../../sim/learn/learn.js';
import type { LearnResult } from '../../../sim/learn/result.js';
import { readScenario } from '../../../sim/scenario/file/read.js';
import { collector, complaintsAbout, htmlComplaints } from '../checks.js';
import { overScenario } from '../reconstruct/burdock-log.js';

let learnt: LearnResult;

beforeAll(async () => {
  // A drop test is over in seconds; a coarse speed alone leaves enough worlds.
  const read = readScenario('configs/teasel.yaml');
  if (read.status !== 'ok') throw new Error('teasel');
  const flyer = createSerialFlyer(createMaker(read.value, '1'));
  const [flights] = await flyer.fly({ set: 'worlds', ids: worldIds(150, 6), heights: [60], detail: 'full' });
  const own = await overScenario();
  const coarse = own.quantities
    .filter(({ name }) => name === 'speed_at_throttle_up')
    .map((one) => ({ ...one, value: 20, low: 17, high: 23 }));
  const made = learn({
    scenario: read.value,
    flights,
    flownIn: null,
    seed: '1',
    worlds: 150,
    each: 6,
    logs: [{ ...own, quantities: coarse }],
    file: 'teasel.yaml',
  });
  if (made.status === 'refused') throw new Error(made.messages.join());
  learnt = made.value;
}, 600_000);

describe('The page of what flights taught', () => {
  test('is valid HTML with the risk before and after', async () => {
    const html = await renderLearn(learnt);
    expect(await htmlComplaints(html)).toEqual([]);
    expect(html).toMatch(/Before the logs it was/);
    expect(html).not.toMatch(/NaN|undefined|\[object/);
  });

  test('draws a chart without a complaint', async () => {
    const { drawn, collect } = collector();
    await learnPage(learnt, collect);
    expect(complaintsAbout(drawn)).toEqual([]);
    expect(drawn).toHaveLength(2);
  });
});
