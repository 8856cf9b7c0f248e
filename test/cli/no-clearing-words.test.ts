/** The program estimates; none of its outputs holds a word that a reader could take for leave to fly. */
import { readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { learnSummary } from '../../cli/commands/learn/summary.js';
import { renderLearn } from '../../report/learn/learn.js';
import type { LearnResult } from '../../sim/learn/result.js';
import { EXAMPLES } from '../schemas/results.js';
import { emptyFolder, filesIn, run } from './command-line.js';
import { runHere } from './in-process.js';

/** What clears a flight, in any of its usual words. */
const CLEARING: readonly RegExp[] = [
  /\ballow(s|ed)? (a|the|this|your) (flight|launch)/i,
  /\b(flight|launch) (is|was) (allowed|permitted|authori[sz]ed|released)/i,
  /\bclear(s|ed)? (a|the|this|your|for|to) ?(flight|fly|launch|take)/i,
  /\bcleared\b/i,
  /\bgo[ -/]+no[ -]?go\b|\bno-go\b|\bgood to go\b|\bgo for (launch|flight)\b|>\s*Go\b/i,
  /\b(is|are|it's) (safe|fine|ok|okay|good) to\b/i,
  /\bsafe to (fly|launch)\b|\bready to (fly|launch)\b|\byou (may|can) (fly|launch)\b/i,
  /\bapproved?\b|\bcertif(y|ied|ies)\b|\bgranted\b/i,
  /"fly"|\bstatus: fly\b/i,
  /\bgreen\b/i,
  /\bOK\b/,
  /\bno risk\b|\brisk-free\b|\bwithout (any )?risk\b/i,
  /\b(test|check|flight) passed\b|\bpassed the\b/i,
  /\bguaranteed?s?\b/i,
];

/** The one sentence that may have the word, because it says the opposite. */
const CAUTION = /\bdoes not clear a flight\b/gi;

const texts = new Map<string, string>();
const folder = emptyFolder();

beforeAll(async () => {
  const said = async (...words: readonly string[]) => {
    const { stdout, stderr } = await runHere(folder, ...words);
    texts.set(`fallmargin ${words.join(' ')}`, `${stdout}${stderr}`);
    return stdout;
  };
  const one = ['--threads', '1', '--flights', '60'];
  await said('init', 'can.yaml', '--height', '233', '--acceptable-risk', '30 %');
  await said('init', 'open.yaml');
  await said('check', 'open.yaml');
  await said('inputs');
  await said('inputs', '.');
  await said('check', 'can.yaml');
  await said('check', 'can.yaml', '--json');
  await said('assess', 'can.yaml', ...one, '--heights', '90,233');
  await said('assess', 'can.yaml', ...one, '--heights', 'planned', '--quiet', '--acceptable-risk', '90 %');
  await said('assess', 'can.yaml', ...one, '--heights', 'planned', '--set', 'wind.speed=12 m/s', '--json');
  await said('assess', 'can.yaml', ...one, '--heights', 'planned', '--part', '1/1');
  await said('merge', 'can-1-of-1.part');
  await said('compare', 'can.yaml', 'can.yaml', ...one, '--planned-only', '--set-b', 'pilot.reaction=9 s');
  await said(
    'limits',
    'can.yaml',
    ...one,
    '--rows',
    'wind.speed=2 m/s,12 m/s',
    '--columns',
    'pad.wait=10 min',
    '--heights',
    '90,233',
  );
  await said('trace', 'can.yaml', '--flight', '3');
  await said('fit', resolve('configs/burdock-reaction-times.csv'), '--column', 'reaction_s', '--unit', 's');
  await said('fit', '--trials', '40', '--failures', '0');
  await said('reconstruct', resolve('configs/burdock-flight-log.csv'), '--scenario', 'can.yaml');
  await said('report', 'can.json', '--out', 'again');
  for (const command of [
    '',
    'init',
    'inputs',
    'check',
    'assess',
    'merge',
    'compare',
    'limits',
    'trace',
    'fit',
    'reconstruct',
    'learn',
    'report',
  ]) {
    const help = [command, '--help'].filter((word) => word !== '');
    texts.set(help.join(' '), run(folder, ...help).stdout);
  }
  texts.set('fallmargin alone', run(folder).stdout);
  const learnt = EXAMPLES.learn.result as LearnResult;
  texts.set('learn, printed', learnSummary(learnt, (_style, text) => text).join('\n'));
  texts.set('learn, page', await renderLearn(learnt));
  for (const file of filesIn(folder).filter((name) => /\.(html|json|yaml)$/.test(name)))
    texts.set(file, words(readFileSync(join(folder, file), 'utf8')));
}, 600_000);

/** Without styles and scripts, whose words no reader sees. */
function words(text: string): string {
  return text.replace(/<(style|script)>[\s\S]*?<\/\1>/g, '');
}

describe('the words of every output', () => {
  it('were looked at: pages, results and what is printed, of all commands', () => {
    const names = [...texts.keys()].join('\n');
    for (const file of ['can.html', 'can.json', 'can-and-can.html', 'can-limits.html', 'again.html', 'can.yaml'])
      expect(names).toContain(file);
    expect(names).toMatch(/can-.*at-233m\.html/);
    expect([...texts.values()].filter((text) => text.trim() === '')).toEqual([]);
  });

  it('clear no flight', () => {
    const found = [...texts].flatMap(([name, text]) =>
      CLEARING.flatMap((word) => {
        const hit = word.exec(text.replace(CAUTION, ''));
        return hit === null
          ? []
          : [`${name}: ${text.replace(CAUTION, '').slice(Math.max(0, hit.index - 40), hit.index + 60)}`];
      }),
    );
    expect(found).toEqual([]);
  });

  it('have the caution under the headline of every page', () => {
    const pages = [...texts].filter(([name]) => name.endsWith('.html') || name === 'learn, page');
    expect(pages.length).toBeGreaterThan(6);
    for (const [name, text] of pages) {
      const caution = text.indexOf('It estimates; it does not clear a flight.');
      expect(caution, name).toBeGreaterThan(text.indexOf('<h1'));
      const first = text.indexOf('<h2');
      expect(first === -1 || caution < first, name).toBe(true);
    }
  });

  it('have the caution under every printed answer', () => {
    const printed = [...texts].filter(
      ([name]) =>
        /^fallmargin (check can|assess|merge|compare|limits|trace|fit|reconstruct) ?/.test(name) &&
        !/--(json|help|part)/.test(name),
    );
    expect(printed.length).toBeGreaterThan(7);
    for (const [name, text] of printed) expect(text, name).toContain('It estimates; it does not clear a flight.');
  });

  it('have the hazards to people in every printed answer about a scenario, and on its page', () => {
    const about = [...texts].filter(
      ([name]) =>
        (/^fallmargin (check can|assess|merge|compare|limits|trace|reconstruct) ?/.test(name) &&
          !/--(help|part)/.test(name)) ||
        /\.html$/.test(name),
    );
    const scenarios = about.filter(([name]) => !/-fit\.html|^trials-/.test(name));
    for (const [name, text] of scenarios)
      expect(text.replace(/\s+/g, ' '), name).toMatch(/nobody who can stop the motors at once/);
  });

  it('say under the headline what the command line changed, beside what the scenario says', () => {
    const changed = [...texts].filter(([, text]) =>
      text.includes('criteria.ground_impact_risk 90 % (the scenario says 30 %)'),
    );
    expect(changed.map(([name]) => name)).toContain('can-2.html');
    const page = texts.get('can-2.html') ?? '';
    expect(page.indexOf('Changed on the command line')).toBeLessThan(page.indexOf('<h2'));
    expect(texts.get([...texts.keys()].find((name) => name.includes('90 %')) ?? '')?.replace(/\s+/g, ' ')).toContain(
      'Changed on the command line: criteria.ground_impact_risk 90 % (the scenario says 30 %).',
    );
    expect(texts.get('can-and-can.html')).toContain('B pilot.reaction 9 s');
  });
});
