import { beforeAll, describe, expect, test } from 'vitest';
import { reconstructPage, renderReconstruct } from '../../../report/reconstruct/reconstruct.js';
import { NOTHING_KNOWN } from '../../../sim/reconstruct/known.js';
import { reconstruct } from '../../../sim/reconstruct/reconstruct.js';
import type { ReconstructResult } from '../../../sim/reconstruct/result.js';
import { collector, complaintsAbout, htmlComplaints } from '../checks.js';
import { known, log, overScenario } from './burdock-log.js';

const reconstructed = new Map<string, ReconstructResult>();

beforeAll(async () => {
  reconstructed.set('a log over its scenario', await overScenario());
  const cases = {
    'a log of both channels alone': reconstruct(log, NOTHING_KNOWN, null),
    'a g-meter alone': reconstruct({ ...log, height: null }, NOTHING_KNOWN, null),
    'a height alone': reconstruct({ ...log, reading: null }, known, null),
  };
  for (const [name, made] of Object.entries(cases)) if (made.status === 'ok') reconstructed.set(name, made.value);
}, 600_000);

describe('The page of a flight log', () => {
  test('is there for every kind of log', () => {
    expect([...reconstructed.keys()]).toHaveLength(4);
  });

  test('is valid HTML for every kind of log, and keeps foreign text out of its markup', async () => {
    for (const result of reconstructed.values()) {
      const html = await renderReconstruct(result);
      expect(await htmlComplaints(html)).toEqual([]);
      expect(html).not.toContain('<log>');
      expect(html).not.toMatch(/NaN|undefined|\[object/);
      expect(html).toContain('Invented data');
    }
  });

  test('draws charts without a complaint', async () => {
    const { drawn, collect } = collector();
    for (const result of reconstructed.values()) await reconstructPage(result, collect);
    expect(complaintsAbout(drawn)).toEqual([]);
    expect(drawn.length).toBeGreaterThan(12);
  });

  test('says that a touchdown speed is not identifiable from a g-meter alone', async () => {
    const html = await renderReconstruct(reconstructed.get('a g-meter alone') as ReconstructResult);
    expect(html).toContain('not identifiable');
    expect(html).toContain('Heights cannot be told from this log.');
  });
});
