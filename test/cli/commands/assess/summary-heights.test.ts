import { expect, it } from 'vitest';
import { curveLines } from '../../../../cli/commands/assess/summary-heights.js';
import type { AssessResult } from '../../../../sim/assess/result.js';
import { proportion } from '../../../../sim/statistics/proportion.js';

it('names a height that the search settled early among those that were judged, not among those only looked at', () => {
  const point = (height: number, count: number, flights: number) => ({
    height,
    risk: proportion(count, flights),
    verdict: 'within',
  });
  const lines = curveLines({
    flights: 8000,
    plannedHeight: 250,
    curve: [point(240, 6, 300), point(250, 230, 8000), point(310, 46, 2000)],
    heightDecision: { height: 200, explored: [{ height: 310, verdict: 'within' }] },
  } as unknown as AssessResult);
  expect(lines.find((line) => line.includes('310 m'))).toMatch(/within/);
  expect(lines.find((line) => line.includes('Only looked at'))).toMatch(/judge: 240 m/);
});
