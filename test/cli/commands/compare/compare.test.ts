import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseMatters } from '../../../../cli/arguments/values.js';
import { compareSummary, compareVerdictLines } from '../../../../cli/commands/compare/summary.js';
import { renderedPage } from '../../../../cli/commands/report/rendered.js';
import { resultJson } from '../../../../sim/basics/result-json.js';
import { parseComparison } from '../../../../sim/compare/json.js';
import { answered } from '../../../answers.js';
import { fakeResult } from '../../../assess/fake-result.js';
import { compareSynthetic, fallingRisk } from '../../../compare/designs.js';
import { BURDOCK, emptyFolder, filesIn } from '../../command-line.js';
import { runHere } from '../../in-process.js';

const plain = (_style: string, text: string) => text;
const A = { risk: fallingRisk(150, 0.03) };
const B = { risk: fallingRisk(110, 0.02) };

describe('the summary of a comparison', () => {
  it.each([
    [
      'B is safer',
      A,
      B,
      8000,
      /^B SAFER: B saves about 1\.1 flights in 100 \(0\.8 to 1\.4\)\. A keeps every limit\. B keeps every limit\. Changed on the command line/,
    ],
    [
      'A is safer',
      B,
      A,
      8000,
      /^A SAFER: B loses about 1\.1 flights more in 100 \(0\.8 to 1\.4\)\. A keeps every limit\. B keeps every limit\. Changed on the command line/,
    ],
    [
      'they are one',
      A,
      A,
      500,
      /^NO DIFFERENCE: the outcomes of all 500 pairs of flights are identical\. A is not shown to keep every limit: ground impact\. B is not shown/,
    ],
  ])('begins with the verdict where %s', async (_what, one, other, flights, beginning) => {
    const result = answered(await compareSynthetic(one, other, { flights, aims: false }));
    expect(compareVerdictLines(result, plain).join(' ')).toMatch(beginning);
  });

  it('names the pairs that would settle it where it is not settled', async () => {
    const other = { risk: () => 0.065, overrides: ['can.length=211 mm'] };
    const result = answered(await compareSynthetic({ risk: () => 0.05 }, other, { flights: 300, aims: false }));
    expect(compareVerdictLines(result, plain).join(' ')).toMatch(
      /^NOT SETTLED: B saves between -\d.* About \d+ pairs give an interval within 0\.5 either way\./,
    );
  });

  it('fits 80 columns and lists comparisons, causes and differences', async () => {
    const overrides = [`title=${'Long '.repeat(40)}`, 'plan.throttle_up_height=200 m'];
    const lines = compareSummary(answered(await compareSynthetic(A, { ...B, overrides }, { flights: 2500 })), plain);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
    const text = lines.join('\n');
    expect(text).toMatch(/At the planned heights \(A 250 m, B 200 m\)[\s\S]*At A's planned height \(both 250 m\)/);
    expect(text).toMatch(/B saves +reaction \d+/);
    expect(text).toMatch(/plan\.throttle_up_height\n {4}A 250 m\n {4}B 200 m/);
  });
});

describe('--matters', () => {
  it('is a percentage or a share, from nothing to 20 %', () => {
    expect(['0.5 %', '0.005', '0', '1%'].map((text) => parseMatters(text))).toEqual(
      [0.005, 0.005, 0, 0.01].map((value) => ({ status: 'ok', value })),
    );
    expect(parseMatters('5')).toMatchObject({ messages: [expect.stringContaining('write "5 %"')] });
    expect(parseMatters('few')).toMatchObject({ status: 'refused' });
  });
});

describe('compare', () => {
  it('of a scenario with itself says that the outcomes are identical, and its page can be rendered again', async () => {
    const folder = emptyFolder();
    const words = ['compare', BURDOCK, BURDOCK, '--flights', '30', '--set', 'plan.throttle_up_height=60 m'];
    const { code, stdout } = await runHere(folder, ...words, '--planned-only', '--threads', '2', '--out', 'same');
    // Thirty flights of a plan of 60 m show no limit kept.
    expect(code).toBe(1);
    expect(stdout).toMatch(/^NO DIFFERENCE: the outcomes of all 30 pairs of flights are\s+identical\./);
    expect(stdout).toContain('The two scenarios say the same');
    expect(filesIn(folder)).toEqual(['same.html', 'same.json']);
    const json = readFileSync(join(folder, 'same.json'), 'utf8');
    expect(parseComparison(json)).toMatchObject({ status: 'ok', value: { identical: true, flights: 30 } });
    const again = await renderedPage(json);
    expect(again).toEqual({ status: 'ok', value: readFileSync(join(folder, 'same.html'), 'utf8') });
  });

  it('compares two results without flying, with exit code 1 where the second is worse', async () => {
    const folder = emptyFolder();
    const results = { good: await fakeResult(3, 1000), bad: await fakeResult(9, 1000) };
    for (const [name, result] of Object.entries(results))
      writeFileSync(join(folder, `${name}.json`), [...resultJson(result)].join(''));
    const worse = await runHere(folder, 'compare', 'good.json', 'bad.json', '--quiet');
    expect([worse.code, worse.stderr]).toEqual([1, '']);
    expect(worse.stdout).toMatch(/^A SAFER: B loses about 6\.\d/);
    expect(filesIn(folder)).toContain('good-and-bad.html');
    expect(await runHere(folder, 'compare', 'bad.json', 'good.json', '--json')).toMatchObject({ code: 0 });
  });

  it('refuses what cannot be compared, with the reason and nothing written', async () => {
    const folder = emptyFolder();
    const result = await fakeResult(3, 300);
    const save = (name: string, what: object) => writeFileSync(join(folder, name), [...resultJson(what)].join(''));
    save('one.json', result);
    save('other-seed.json', { ...result, seed: '2' });
    save('comparison.json', answered(await compareSynthetic(A, B, { flights: 300, aims: false })));
    const before = filesIn(folder);
    const refusals: readonly (readonly [readonly string[], RegExp])[] = [
      [['one.json', 'other-seed.json'], /seed "1", the second "2".*scenario files/],
      [['one.json', 'comparison.json'], /comparison\.json: the result is of kind "compare"/],
      [['one.json', BURDOCK], /"one\.json" is a result and the other file is none/],
      [['one.json', 'other-seed.json', '--seed', '3'], /--seed: two results flown earlier/],
      [[BURDOCK, BURDOCK, '--matters', '5', '--set-b', 'can.mas=1 g'], /--matters is "5"/],
    ];
    for (const [words, message] of refusals) {
      const { code, stdout, stderr } = await runHere(folder, 'compare', ...words);
      expect(stderr.replaceAll('\n', ' ')).toMatch(message);
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    }
    expect(filesIn(folder)).toEqual(before);
  });
});
