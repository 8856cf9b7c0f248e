import { nominalDraw } from '../../sim/draws/drawer.js';
import type { AssessResult } from '../../sim/result/result.js';
import { assess } from '../../sim/study/assess.js';
import { createSerialFlyer } from '../../sim/study/serial-flyer.js';
import { burdock } from '../study/burdock.js';
import { fakeMaker } from '../study/fake-maker.js';

/** A whole result of flights that fail as told; quick, and of the same shape as a real one. */
export async function fakeResult(
  failuresInHundred: number,
  flights = 200,
  ...overrides: readonly string[]
): Promise<AssessResult> {
  const scenario = burdock(...overrides);
  const { maker } = fakeMaker((height) => (height < 150 ? 60 : failuresInHundred));
  const study = await assess(
    scenario,
    { seed: '1', flights, heights: { kind: 'standard' }, overrides },
    { flyer: createSerialFlyer(maker), maker, nominal: nominalDraw(scenario) },
  );
  if (study.status !== 'ok') throw new Error(study.status);
  return study.result;
}
