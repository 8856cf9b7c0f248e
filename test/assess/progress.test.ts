import { describe, expect, it } from 'vitest';
import { assess } from '../../sim/assess/assess.js';
import {
  createStudyCount,
  type ExpectedFlights,
  expectedFlights,
  PHASES,
  type StudyProgress,
} from '../../sim/assess/progress.js';
import { burdock } from '../ensemble/burdock.js';
import { fakeMaker, firstIds, meansOf } from '../ensemble/fake-maker.js';

const EXPECTED: ExpectedFlights = {
  'heights asked for': 100,
  'search for a height': 400,
  'fresh flights': 100,
  'what nobody has measured': 60,
  'what would help': 40,
};

describe('the count of a study', () => {
  const { maker } = fakeMaker(() => 3);
  const { flyer } = meansOf(burdock(), maker);
  const watch = () => {
    const heard: StudyProgress[] = [];
    const count = createStudyCount(EXPECTED, (progress) => heard.push(progress));
    const fly = (flights: number, heights: readonly number[] = [250]) =>
      count.counted(flyer).fly({ set: 'explore', ids: firstIds(flights), heights, detail: 'outcomes' });
    return { count, fly, last: () => heard[heard.length - 1] };
  };

  it('takes each height for a flight, and expects the rest', async () => {
    const { fly, last } = watch();
    await fly(20, [200, 250]);
    expect(last()).toEqual({ phase: 'heights asked for', flown: 40, total: 700 });
  });

  it('lets what a phase flew stand for what was expected of it when the next one begins', async () => {
    const { count, fly, last } = watch();
    await fly(90);
    count.begin('search for a height');
    await fly(10);
    expect(last()).toEqual({ phase: 'search for a height', flown: 100, total: 90 + 400 + 200 });
    count.begin('what would help');
    await fly(1);
    expect(last()).toEqual({ phase: 'what would help', flown: 101, total: 90 + 10 + 40 });
  });

  it('keeps a little to come where a phase takes more than expected', async () => {
    const { fly, last } = watch();
    await fly(200);
    expect(last()).toEqual({ phase: 'heights asked for', flown: 200, total: 210 + 600 });
  });

  it('takes a better guess', async () => {
    const { count, fly, last } = watch();
    count.expect({ ...EXPECTED, 'search for a height': 40 });
    await fly(10);
    expect(last().total).toBe(340);
  });
});

describe('the flights expected of a study', () => {
  const study = { flights: 8000, heights: 10, searches: true, unmeasured: true, assuresPlanned: false };

  // On synthetic curves 8000 flights a height take about 8000, 45 000 and 24 000; with the demo 6000 and 5800 more.
  it('are about those of synthetic curves and of the demo', () => {
    expect(expectedFlights(study)).toEqual({
      'heights asked for': 8000,
      'search for a height': 54_000,
      'fresh flights': 24_000,
      'what nobody has measured': 6000,
      'what would help': 6000,
    });
  });

  it('are those of the heights alone where they were given, and the worlds where an assurance is demanded', () => {
    const given = expectedFlights({ ...study, searches: false, assuresPlanned: true });
    expect(Object.values(given)).toEqual([80_000, 0, 0, 6000, 0]);
    expect(Object.values(expectedFlights({ ...study, unmeasured: false }))[3]).toBe(0);
  });
});

describe('the progress of a study with a search', () => {
  it('goes through the phases in their order and is never past the whole', async () => {
    const scenario = burdock('site.keep_out=[]');
    const heard: StudyProgress[] = [];
    const { maker } = fakeMaker((height) => (height < 150 ? 40 : 3));
    const options = { seed: '1', flights: 1000, heights: { kind: 'standard' }, overrides: [] } as const;
    await assess(scenario, options, meansOf(scenario, maker), { onProgress: (progress) => heard.push(progress) });
    expect([...new Set(heard.map(({ phase }) => phase))]).toEqual(PHASES);
    for (const [index, { phase, flown, total }] of heard.entries()) {
      expect(flown).toBeLessThanOrEqual(total);
      const before = heard[index - 1];
      if (before === undefined) continue;
      expect(flown).toBeGreaterThan(before.flown);
      expect(PHASES.indexOf(phase)).toBeGreaterThanOrEqual(PHASES.indexOf(before.phase));
    }
  });
});
