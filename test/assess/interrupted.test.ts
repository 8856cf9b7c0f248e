import { describe, expect, it } from 'vitest';
import { assess } from '../../sim/assess/assess.js';
import { parseResult } from '../../sim/assess/json.js';
import type { AssessOptions } from '../../sim/assess/plan.js';
import { PHASES, type Phase } from '../../sim/assess/progress.js';
import type { AssessResult } from '../../sim/assess/result.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { HAZARDS } from '../../sim/scenario/hazards.js';
import { answered } from '../answers.js';
import { burdock } from '../ensemble/burdock.js';
import { fakeMaker, meansOf } from '../ensemble/fake-maker.js';
import { firstNonsense } from './nonsense.js';

const FLIGHTS = 1000;
/** Surely too risky under 150 m, within the 5 % from there on. */
const failures = (height: number) => (height < 150 ? 40 : 3);

/** A study with a search, stopped when a phase has flown so many flights; null where none of it was flown. */
async function stopped(
  phase: Phase,
  after: number,
  changes: Partial<AssessOptions> = {},
): Promise<AssessResult | null> {
  const scenario = burdock('site.keep_out=[]');
  const means = meansOf(scenario, fakeMaker(failures).maker);
  const stop = new AbortController();
  let before: number | null = null;
  const options = { seed: '1', flights: FLIGHTS, heights: { kind: 'standard' }, overrides: [], ...changes } as const;
  const study = await assess(scenario, options, means, {
    stop: stop.signal,
    onProgress(progress) {
      if (progress.phase !== phase) return;
      before ??= progress.flown;
      if (progress.flown - before >= after) stop.abort();
    },
  });
  return study.status === 'nothing flown' ? null : answered(study);
}

const whole = stopped('heights asked for', Number.POSITIVE_INFINITY);
const nowAndLater = PHASES.flatMap((phase) => [0, 250].map((after) => [phase, after] as const));

describe('a study interrupted', () => {
  it.each(nowAndLater)('in the phase "%s" after %d flights is kept whole as far as it went', async (phase, after) => {
    const result = (await stopped(phase, after)) as AssessResult;
    expect(result.partial).toBe(true);
    expect(firstNonsense(result)).toBeNull();
    const read = parseResult([...resultJson(result)].join(''));
    expect(read.status === 'ok' && read.value).toEqual(result);
    const afterHazards = result.warnings.filter(({ code }) => !HAZARDS.includes(code));
    expect(afterHazards[0]).toMatchObject({ code: 'partial' });
    expect(result.curve.every(({ risk }) => risk.flights > 0)).toBe(true);

    const full = (await whole) as AssessResult;
    if (phase === 'heights asked for') expect(result.flights).toBeLessThan(FLIGHTS);
    else expect({ risk: result.risk, causes: result.causes }).toEqual({ risk: full.risk, causes: full.causes });
    if (PHASES.indexOf(phase) < 3) expect(result.heightDecision ?? null).toBeNull();
    else expect(result.heightDecision).toEqual(full.heightDecision);
    if (phase === 'what would help') {
      expect(afterHazards[0].text).toContain('"what would help"');
      expect([result.worlds, result.drivers]).toEqual([full.worlds, full.drivers]);
      expect(result.help?.rows.length).toBeLessThan(full.help?.rows.length as number);
    }
  });

  it('while the width was waited for says that it did not stop by itself', async () => {
    const result = (await stopped('heights asked for', 2500, { until: 0.005 })) as AssessResult;
    expect([result.partial, result.stopping]).toEqual([true, null]);
    expect(result.flights).toBeGreaterThan(2000);
    expect(firstNonsense(result)).toBeNull();
  });

  it('among the worlds demanded says nothing about them', async () => {
    const result = (await stopped('what nobody has measured', 250, {
      assurance: 0.9,
      heights: { kind: 'planned' },
    })) as AssessResult;
    expect([result.partial, result.assurance]).toEqual([true, null]);
  });

  it('not at all holds a decision, and everything that is asked of the inputs', async () => {
    const result = (await whole) as AssessResult;
    expect(result.partial).toBe(false);
    expect(result.heightDecision?.status).toBe('shown');
    expect(result.aim?.height).toBe(result.heightDecision?.aim?.height);
    const { worlds, drivers, help, measureFirst, tipping, pessimistic } = result;
    expect([worlds, drivers, help, measureFirst, tipping, pessimistic]).not.toContain(null);
    expect([worlds, drivers, help, measureFirst, tipping, pessimistic]).not.toContain(undefined);
    expect(firstNonsense(result)).toBeNull();
  });
});
