import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { thinnedLine } from '../../../report/trace/over-time-chart.js';
import { renderTrace, tracePage } from '../../../report/trace/trace.js';
import { collector, complaintsAbout, htmlComplaints } from '../checks.js';
import { makeTrace } from './fixture-trace.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');
const noDraw = async () => '';

describe('The page of one flight', () => {
  test('is valid HTML with nothing from outside and no hole', async () => {
    const html = await renderTrace(makeTrace('soft'));
    expect(await htmlComplaints(html)).toEqual([]);
    expect(html).not.toMatch(/ (?:src|href)="(?!#)|\bNaN\b|undefined/);
    expect(html).toContain('Invented data.');
  });

  test('says what became of it, and why', async () => {
    const [soft, crash] = await Promise.all(
      (['soft', 'crash'] as const).map((outcome) => tracePage(makeTrace(outcome), noDraw)),
    );
    expect(plain(soft.sections[0].paragraphs[0])).toBe(
      'Flight explore:17@250 lands softly. It touches down 30.0 s after ejection at 4.1 m/s (1.0 m/s downwards, 4.0 m/s over the ground), 50 m from the planned landing point.',
    );
    expect(crash.sections[0].paragraphs[0]).toMatch(/ crashes\. .*Cause: arm shut\. At least one arm stayed shut\.$/);
  });

  test('shows the pack only where motors ran', async () => {
    const idsOf = async (motors: boolean) =>
      (await tracePage(makeTrace('crash', motors), noDraw)).sections[2].figures?.map(({ id }) => id);
    expect(await idsOf(true)).toEqual(['height', 'speed', 'tilt', 'voltage', 'current']);
    expect(await idsOf(false)).toEqual(['height', 'speed', 'tilt']);
  });

  test('shows what was drawn: events that happen first, then the farthest out, marked', async () => {
    const section = (await tracePage(makeTrace('crash'), noDraw)).sections[1];
    const rows = section.tables?.[0].rows.map(({ head, cells }) => [head, ...cells].map(({ text }) => plain(text)));
    expect(rows).toEqual([
      ['Dead, rotor 2 (rotors): whether it happens', 'happens (chance 0.5 %)', '-', 'event'],
      ['Thrust factor (rotors)', '1.08', '99.60 %', 'not measured'],
      ['Speed (wind)', '3.00 m/s', '40 %', 'varies'],
      ['Dead (rotors): its chance', '0.500 %', '50 %', 'not measured'],
      ['Dead, rotor 3 (rotors): whether it happens', 'does not happen (chance 0.5 %)', '-', 'event'],
      ['Attitude, u1 (ejection)', '0.00100', '-', 'luck'],
    ]);
    const marks = section.tables?.[0].rows.map(({ cells }) => cells.map(({ mark }) => mark));
    expect(marks).toEqual([
      ['guess', null, null],
      [null, 'guess', null],
      [null, null, null],
      [null, null, null],
      [null, null, null],
      [null, null, null],
    ]);
    expect(plain(section.paragraphs[0])).toMatch(
      /^Of 3 numbers drawn, one lies outside the middle nine tenths of its own law; chance alone puts about 0 there\./,
    );
  });

  test('says of the nominal flight that nothing was drawn', async () => {
    const { sections } = await tracePage({ ...makeTrace('soft'), drawn: [] }, noDraw);
    expect(sections[1].tables).toEqual([]);
    expect(sections[1].paragraphs).toEqual([expect.stringMatching(/^Nothing was drawn/)]);
  });

  test('escapes whatever a file holds', async () => {
    const evil = '<img src=x>';
    const made = makeTrace('crash');
    const html = await renderTrace(
      {
        ...made,
        id: evil,
        seed: evil,
        scenario: { ...made.scenario, title: evil, hash: evil },
        events: [{ name: evil, time: 1, height: null }],
        drawn: made.drawn.map((one) => ({ ...one, name: evil, unit: evil })),
      },
      noDraw,
    );
    expect(html).not.toContain('<img src=x');
    expect(html).toContain('&lt;img src&#x3D;x&gt;');
    expect(await htmlComplaints(html)).toEqual([]);
  });

  test('ends its lines where a flight diverged', async () => {
    const traced = makeTrace('numerical');
    const cut = Object.entries(traced.history).map(([name, column]) => [
      name,
      column.map((value, i) => (i < 900 ? value : null)),
    ]);
    const { drawn, collect } = collector();
    await tracePage({ ...traced, history: Object.fromEntries(cut) }, collect);
    expect(drawn.length).toBeGreaterThan(4);
    expect(/"(?:value|time)":null/.test(JSON.stringify(drawn))).toBe(false);
    expect(complaintsAbout(drawn)).toEqual([]);
  });
});

describe('A line thinned for drawing', () => {
  test('keeps its ends, its least and its greatest value, and is short', () => {
    const values = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 2, maxLength: 2000 });
    fc.assert(
      fc.property(values, (all) => {
        const points = all.map((value, time) => ({ time, value }));
        const kept = thinnedLine(points);
        const extremes = (some: typeof kept) => [
          Math.min(...some.map(({ value }) => value)),
          Math.max(...some.map(({ value }) => value)),
        ];
        expect(kept.length).toBeLessThanOrEqual(302);
        expect([kept[0], kept.at(-1)]).toEqual([points[0], points.at(-1)]);
        expect(extremes(kept)).toEqual(extremes(points));
      }),
      { numRuns: 50 },
    );
  });
});
