import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BURDOCK, emptyFolder, filesIn } from './command-line.js';
import { runHere } from './in-process.js';

const folder = emptyFolder();
mkdirSync(join(folder, 'taken.json'));
writeFileSync(join(folder, 'mine.html'), '<p>a page of somebody else</p>');
writeFileSync(join(folder, 'broken.json'), '{"kind":"assess","versions":{');
const before = filesIn(folder);

describe('misuse ends with exit code 2, one plain message, no stack trace and nothing written', () => {
  it.each([
    ['an unknown command', ['asess', BURDOCK], /no command "asess".*"assess"/],
    ['a shell after completion', ['completion', 'fish'], /completion takes no further words; .*bash or zsh/],
    ['an unknown option', ['assess', BURDOCK, '--flihgts', '5'], /no option --flihgts.*--flights/],
    ['no scenario', ['assess'], /needs a scenario file: fallmargin assess payload\.yaml/],
    ['a missing scenario', ['check', 'nowhere.yaml'], /nowhere\.yaml.*does not exist/],
    ['an option without its value', ['assess', BURDOCK, '--seed'], /--seed needs a value/],
    [
      'several bad values at once',
      ['assess', BURDOCK, '--flights', 'abc', '--threads', '0', '--heights', '9:1', '--acceptable-risk', '5'],
      /--flights is "abc"[\s\S]*--threads is "0"[\s\S]*--heights is "9:1"[\s\S]*write "5 %"/,
    ],
    ['an option given twice', ['assess', BURDOCK, '--flights', '5', '--flights', '6'], /--flights was given 2 times/],
    ['a flag with a value', ['assess', BURDOCK, '--json=maybe'], /--json takes no value/],
    ['a word too many', ['check', BURDOCK, 'more'], /"more" is one word too many/],
    ['the standard input', ['check', '-'], /standard input/],
    ['a bad change', ['check', BURDOCK, '--set', 'can.mas=5 g'], /can\.mas.*"can\.mass"/],
    ['flights that are no number', ['assess', BURDOCK, '--flights', 'abc'], /--flights is "abc".*whole number/],
    ['no flights', ['assess', BURDOCK, '--flights', '0'], /--flights is "0".*at least 1/],
    [
      'two numbers of flights',
      ['assess', BURDOCK, '--flights', '500', '--until', '1 %'],
      /--until 1 % finds .* but --flights 500 was given too/,
    ],
    ['a width that is none', ['assess', BURDOCK, '--until', '0'], /--until is "0".*between 0\.01 % and 10 %/],
    ['a share without its sign', ['assess', BURDOCK, '--assurance', '90'], /--assurance is "90".*write "90 %"/],
    ['an empty date', ['assess', BURDOCK, '--date', ' '], /--date is empty/],
    ['a height above the ejection', ['assess', BURDOCK, '--heights', '100,700'], /700 m.*at most 6\d\d m/],
    ['a billion flights', ['assess', BURDOCK, '--flights', '1e9'], /GB of memory.*at most \d+ flights/],
    ['a folder that is not there', ['assess', BURDOCK, '--out', 'no/where'], /"no" .*does not exist/],
    [
      'a folder that cannot be written to',
      ['assess', BURDOCK, '--out', '/proc/study'],
      /"\/proc" .*(cannot be|not exist)/,
    ],
    ['an output that is a folder', ['assess', BURDOCK, '--out', 'taken'], /taken\.json" is there and is not a file/],
    ["somebody else's file", ['assess', BURDOCK, '--out', 'mine'], /mine\.html".*not written by this program/],
    ['a flight that is none', ['trace', BURDOCK, '--flight', 'seventeen'], /"seventeen".*explore:17@250/],
    ['a result that was cut off', ['report', 'broken.json'], /broken\.json.*not whole JSON/],
    ['a scenario that is there already', ['init', BURDOCK], /there already.*--force/],
  ])('%s', async (_what, words, message) => {
    const { code, stdout, stderr } = await runHere(folder, ...words);
    expect(stderr).toMatch(message);
    expect(stderr).not.toMatch(/\n\s+at |NaN|undefined/);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(filesIn(folder)).toEqual(before);
  });

  it('leaves the file that was in the way as it was', () => {
    expect(readFileSync(join(folder, 'mine.html'), 'utf8')).toBe('<p>a page of somebody else</p>');
  });
});
