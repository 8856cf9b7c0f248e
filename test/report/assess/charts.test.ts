import { beforeAll, describe, expect, test } from 'vitest';
import { reportView } from '../../../report/assess/assess.js';
import { drawChart } from '../../../report/kit/draw.js';
import { collector, complaintsAbout } from '../checks.js';
import { makeResult } from './fixture.js';
import { DECISIONS } from './fixture-decisions.js';

const { drawn, collect } = collector();

beforeAll(async () => {
  await reportView({ ...makeResult({ flights: 800 }), ...DECISIONS }, collect);
  await reportView(makeResult({ flights: 800, rare: true }), collect);
  await reportView(makeResult({ flights: 20, heights: [250] }), collect);
});

describe('Every chart of the report', () => {
  test("compiles without a warning, keeps to vega-lite's own schema and holds finite numbers only", () => {
    expect(drawn.length).toBeGreaterThan(60);
    expect(complaintsAbout(drawn)).toEqual([]);
  });

  test('is aggregated: no chart draws more than a few hundred data', () => {
    for (const { spec, label } of drawn) {
      let most = 0;
      JSON.stringify(spec, (key, value) => {
        if (key === 'values' && Array.isArray(value)) most = Math.max(most, value.length);
        return value;
      });
      expect(most, label).toBeLessThan(1600);
    }
  });

  test('takes its colours from the page, so that dark mode and print reach it', () => {
    for (const { spec } of drawn) {
      const text = JSON.stringify(spec);
      expect(text).not.toMatch(/#[0-9a-f]{3,8}"/i);
      expect(spec.background).toBe('transparent');
    }
  });
});

describe('A drawn chart', () => {
  test('is one image with a label and carries no style, class, role or id inside', async () => {
    for (const { spec, label } of drawn.slice(0, 12)) {
      const svg = await drawChart(spec, label);
      expect(svg).toMatch(/^<svg role="img" aria-label="[^"]+"/);
      expect(svg.slice(5)).not.toMatch(/ (?:style|class|id|role="graphics)/);
      expect(svg.match(/ aria-/g)).toHaveLength(1);
    }
  });

  test('writes its colours as variables of the page', async () => {
    const svg = await drawChart(drawn[0].spec, 'a gauge');
    const colours = [...svg.matchAll(/(?:fill|stroke)="([^"]*)"/g)].map((match) => match[1]);
    const foreign = colours.filter((colour) => !/^(?:var\(--[a-z-]+\)|none|transparent)$/.test(colour));
    expect(foreign).toEqual([]);
  });
});
