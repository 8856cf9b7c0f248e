import { expect, it } from 'vitest';
import { curveLines } from '../../../../cli/commands/assess/summary-heights.js';
import type { AssessResult } from '../../../../sim/assess/result.js';
import { proportion } from '../../../../sim/statistics/proportion.js';

it('names a height that the search settled early among those that were judged, not among those only looked at', () => {
  const point = (height: number, count: number, flights: number, verdict = 'within') => ({
    height,
    risk: proportion(count, flights),
    verdict,
  });
  const lines = curveLines({
    flights: 8000,
    plannedHeight: 250,
    curve: [point(90, 150, 300, 'above'), point(240, 6, 300, 'not shown'), point(250, 230, 8000), point(310, 46, 2000)],
    heightDecision: { latest: 200 },
  } as unknown as AssessResult);
  expect(lines.find((line) => line.includes('310 m'))).toMatch(/within/);
  expect(lines.find((line) => line.includes('Only looked at'))).toMatch(/judge: 240 m/);
  expect(lines).toContain('  Over a limit, given up early: 90 m.');
});
