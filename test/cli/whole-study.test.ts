import { hostname, tmpdir } from 'node:os';
import { pathToFileURL } from 'node:url';
import { describe, expect, it } from 'vitest';
import { resultJson } from '../../sim/basics/result-json.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { answered } from '../answers.js';

/** Workers load compiled files only, so this is tested on what the build made. */
const { flyAssessment } = (await import(pathToFileURL('dist/cli/commands/assess/fly.js').href)) as {
  flyAssessment: typeof import('../../cli/commands/assess/fly.js').flyAssessment;
};

/** Short falls from a low drop, and a limit that a third of them keeps: quick, and with every part of a study. */
const CHANGES = [
  'ejection.height=50 m',
  'plan.throttle_up_height=30 m',
  'criteria.ground_impact_risk=97 %',
  'site.keep_out=[]', // so few flights show nothing of a small chance
] as const;
const read = readScenario('configs/teasel.yaml', CHANGES);

async function study(seed: string, threads: number, kind: 'standard' | 'planned') {
  const options = { seed, flights: 60, heights: { kind }, overrides: CHANGES };
  const flown = await flyAssessment(answered(read), options, threads, true, new AbortController().signal);
  const result = answered(flown);
  return { result, text: [...resultJson(result)].join('') };
}

describe('a whole study', () => {
  const whole = study('1', 1, 'standard');

  it('gives the same bytes on one thread and on two, and holds nothing of the machine', async () => {
    const { result, text } = await whole;
    const { heightDecision, aim, worlds, drivers, help, measureFirst, tipping, pessimistic } = result;
    expect(heightDecision?.status).toBe('shown');
    for (const part of [aim, worlds, drivers, help, measureFirst, tipping, pessimistic])
      expect(part ?? null).not.toBeNull();
    expect((await study('1', 2, 'standard')).text).toBe(text);
    for (const trace of [process.cwd(), tmpdir(), `"${hostname()}"`, '"threads"']) expect(text).not.toContain(trace);
    expect(text).not.toMatch(/20\d\d-\d\d-\d\d/);
  });

  it('has other flights for another seed', async () => {
    const [one, other] = [await whole, await study('2', 1, 'planned')];
    expect(other.result.raw.planned).not.toEqual(one.result.raw.planned);
  });
});
