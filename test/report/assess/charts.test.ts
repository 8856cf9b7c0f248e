import { createRequire } from 'node:module';
import { Ajv } from 'ajv';
import { beforeAll, describe, expect, test } from 'vitest';
import { reportView } from '../../../report/assess/assess.js';
import { riskFloor, riskTicks } from '../../../report/kit/chart-style.js';
import { type ChartSpec, compileChart, type Draw, drawChart, textWidth } from '../../../report/kit/draw.js';
import { makeResult } from './fixture.js';
import { DECISIONS } from './fixture-decisions.js';

const schema: object = createRequire(import.meta.url)('vega-lite/vega-lite-schema.json');
const validate = new Ajv({ strict: false, allowUnionTypes: true, validateFormats: false }).compile(schema);

interface Drawn {
  readonly spec: ChartSpec;
  readonly label: string;
}

const drawn: Drawn[] = [];
const collect: Draw = async (spec, label) => {
  drawn.push({ spec, label });
  return '<svg role="img"></svg>';
};

beforeAll(async () => {
  await reportView({ ...makeResult({ flights: 800 }), ...DECISIONS }, collect);
  await reportView(makeResult({ flights: 800, rare: true }), collect);
  await reportView(makeResult({ flights: 20, heights: [250] }), collect);
});

describe('Every chart of the report', () => {
  test('compiles without a warning', () => {
    expect(drawn.length).toBeGreaterThan(60);
    const warnings: string[] = [];
    for (const { spec, label } of drawn) compileChart(spec, (message) => warnings.push(`${label}: ${message}`));
    expect(warnings).toEqual([]);
  });

  test("keeps to vega-lite's own schema", () => {
    const broken = drawn.filter(({ spec }) => !validate(JSON.parse(JSON.stringify(spec))));
    expect(broken.map(({ label }) => label)).toEqual([]);
  });

  test('holds only numbers that are finite', () => {
    for (const { spec, label } of drawn) {
      JSON.stringify(spec, (key, value) => {
        if (typeof value === 'number' && !Number.isFinite(value)) throw new Error(`${label}: ${key} is ${value}`);
        return value;
      });
    }
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

describe('The width of a text', () => {
  test('is within a sixth of that of Helvetica, and never under it', () => {
    // Adobe Font Metrics of Helvetica (from memory): H 722, e 556, i 222, g 556, h 556, t 278, space 278, m 833.
    const height = (722 + 556 + 222 + 556 + 556 + 278) / 1000;
    expect(textWidth('Height')).toBeGreaterThanOrEqual(height);
    expect(textWidth('Height')).toBeLessThan(height * (7 / 6));
    expect(textWidth('')).toBe(0);
  });
});

describe('A logarithmic axis of risk', () => {
  test('begins at a round figure under the lowest one it shows', () => {
    expect(riskFloor([5, 2.6, 2.3])).toBe(0.5);
    expect(riskFloor([5, 0.03])).toBe(0.02);
    expect(riskFloor([0, 5])).toBe(0.5);
  });

  test('has ticks 1, 2, 5 where they fit, and tens where they would crowd', () => {
    expect(riskTicks(0.5)).toEqual([0.5, 1, 2, 5, 10, 20, 50, 100]);
    expect(riskTicks(0.02)).toEqual([0.02, 0.1, 1, 10, 100]);
  });
});
