import { describe, expect, test } from 'vitest';
import { fitPage, renderFit } from '../../../report/fit/fit.js';
import { fitColumn, fitTrials } from '../../../sim/fit/fit.js';
import type { FitResult } from '../../../sim/fit/result.js';
import { fitThrustStand } from '../../../sim/fit/thrust-stand.js';
import { collector, complaintsAbout, htmlComplaints } from '../checks.js';

function resultOf<T>(
  made: { readonly status: 'ok'; readonly value: { readonly result: T } } | { readonly status: 'refused' },
): T {
  if (made.status === 'refused') throw new Error('refused');
  return made.value.result;
}

const values = Array.from({ length: 60 }, (_, i) => Math.exp(0.4 * Math.sin(i * 2.4)));
const options = { column: 'x_<b>', unit: 's', family: 'auto', path: 'pilot.reaction' } as const;
const csv = (list: readonly number[]) => `x_<b>\n${list.join('\n')}\n`;
const stand = ['0,0,0,16.6', '50,110,2.4,16.3', '100,300,7.4,15.9', '100,280,7,15.1', '100,262,6.6,14.6'].join('\n');

const CASES: Readonly<Record<string, FitResult>> = {
  'many values': resultOf(fitColumn(csv(values), 'a&b.csv', options)),
  'four values': resultOf(fitColumn(csv([1, 2, 4, 5]), 'b.csv', options)),
  'the samples themselves': resultOf(fitColumn(csv(values), 'b.csv', { ...options, family: 'samples' })),
  'a chance': resultOf(fitTrials(40, 1, null)),
  'a thrust stand': resultOf(
    fitThrustStand(`throttle,thrust,current,voltage\n${stand}\n`, 's.csv', { rotors: 1, density: null }),
  ),
};

describe.each(Object.keys(CASES))('The page of %s', (name) => {
  test('is valid HTML, whole without script, and keeps foreign text out of its markup', async () => {
    const html = await renderFit(CASES[name]);
    expect(await htmlComplaints(html)).toEqual([]);
    expect(html).not.toContain('x_<b>');
    expect(html).toContain('does not clear a flight');
    expect(html).not.toMatch(/NaN|undefined|\[object/);
  });

  test('draws charts without a complaint', async () => {
    const { drawn, collect } = collector();
    await fitPage(CASES[name], collect);
    expect(complaintsAbout(drawn)).toEqual([]);
    expect(drawn.length).toBe(name === 'a chance' ? 0 : name === 'a thrust stand' ? 6 : 4);
  });
});
