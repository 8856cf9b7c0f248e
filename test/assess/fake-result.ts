import { assess } from '../../sim/assess/assess.js';
import type { AssessResult } from '../../sim/assess/result.js';
import { answered } from '../answers.js';
import { burdock } from '../ensemble/burdock.js';
import { fakeMaker, meansOf } from '../ensemble/fake-maker.js';

/** A whole result of flights that fail as told; quick, and of the same shape as a real one. */
export async function fakeResult(
  failuresInHundred: number,
  flights = 200,
  ...overrides: readonly string[]
): Promise<AssessResult> {
  const scenario = burdock('site.keep_out=[]', ...overrides);
  const { maker } = fakeMaker((height) => (height < 150 ? 60 : failuresInHundred));
  const study = await assess(
    scenario,
    { seed: '1', flights, heights: { kind: 'list', heights: [60, 140, 200, 310, 500] }, overrides },
    meansOf(scenario, maker),
  );
  return answered(study);
}
