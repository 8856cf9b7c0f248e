import { copyFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BURDOCK, emptyFolder, filesIn } from './command-line.js';
import { runHere } from './in-process.js';

const folder = emptyFolder();
copyFileSync(BURDOCK, join(folder, 'burdock.yaml'));

const varies = (law: string) => `{ ${law}, kind: varies from flight to flight }`;
const changed = (...lines: readonly string[]) => ['extends: burdock.yaml', ...lines].join('\n');

/** Each file with the line and column of what is wrong, and what the message says. */
const BAD: readonly (readonly [what: string, text: string, place: string, message: RegExp])[] = [
  ['an empty file', '', '1:1', /empty/],
  ['broken YAML', 'can: [610 g,\nsite: here', '2:1', /expected/],
  ['a duplicate key', changed('can:', '  mass: 600 g', '  mass: 590 g'), '4:3', /"mass" a second time/],
  ['an unknown key', changed('can:', '  mas: 610 g'), '3:3', /"mas".*"mass"/],
  ['a missing unit', changed('can:', '  mass: 610'), '3:9', /"610", a number without a unit.*"420 g"/],
  ['a wrong dimension', changed('can:', '  mass: 610 m'), '3:9', /"610 m".*length.*mass/],
  ['a negative mass', changed('can:', '  mass: -610 g'), '3:9', /"-610 g", below 0/],
  ['a probability above 1', changed('criteria:', '  ground_impact_risk: 120 %'), '3:23', /"120 %", too large/],
  ['a spread of 0', changed('can:', `  mass: ${varies('normal: { mean: 610 g, sd: 0 g }')}`), '3:38', /0 g.*above 0/],
  ['a negative spread', changed('can:', `  mass: ${varies('normal: { mean: 610 g, sd: -5 g }')}`), '3:38', /-5 g/],
  [
    'reversed bounds',
    changed('can:', `  mass: ${varies('normal: { mean: 610 g, sd: 5 g }, at_least: 620 g, at_most: 600 g')}`),
    '3:71',
    /"at_least" 620 g, .* "at_most" 600 g/,
  ],
  [
    'bounds that exclude the distribution',
    changed('can:', `  mass: ${varies('uniform: { from: 600 g, to: 620 g }, at_least: 650 g')}`),
    '3:58',
    /bounds that exclude the distribution/,
  ],
  [
    'correlations that cannot be together',
    changed(
      'correlations:',
      '  - { between: [wind.speed, wind.gust_factor], rank: 0.95 }',
      '  - { between: [wind.gust_factor, wind.from], rank: 0.95 }',
      '  - { between: [wind.speed, wind.from], rank: -0.95 }',
    ),
    '5:5',
    /"wind.speed", "wind.from", "wind.gust_factor" that no inputs can have together/,
  ],
  [
    'a correlation of inputs of two kinds',
    changed('correlations:', '  - { between: [wind.speed, can.arm_drag_area], rank: 0.5 }'),
    '3:5',
    /"wind.speed" \(varies from flight to flight\) and "can.arm_drag_area" \(fixed but not measured\)/,
  ],
  ['a file that extends itself', 'extends: bad.yaml', '1:10', /circle/],
  ['a file that extends nothing', 'extends: nowhere.yaml', '1:10', /nowhere\.yaml.*does not exist/],
];

describe('a scenario that is wrong ends with exit code 2, its place and one plain message', () => {
  it.each(BAD)('%s', async (_what, text, place, message) => {
    writeFileSync(join(folder, 'bad.yaml'), text);
    const before = filesIn(folder);
    for (const command of ['check', 'assess']) {
      const { code, stdout, stderr } = await runHere(folder, command, 'bad.yaml');
      expect(stderr).toMatch(message);
      expect(stderr.startsWith(`bad.yaml:${place}: `)).toBe(true);
      expect(stderr).not.toMatch(/\n\s+at |NaN|undefined|\[object/);
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    }
    expect(filesIn(folder)).toEqual(before);
  });

  it('all that is wrong with it at once, in the order of the file', async () => {
    writeFileSync(join(folder, 'bad.yaml'), changed('can:', '  mas: 610 g', 'wind:', '  speed: 5', 'sit: {}'));
    const { code, stderr } = await runHere(folder, 'check', 'bad.yaml');
    expect(code).toBe(2);
    expect([...stderr.matchAll(/^bad\.yaml:(\d+):/gm)].map(([, line]) => line)).toEqual(['3', '5', '6']);
  });

  it.each(['35 degC', '300 K'])('but a temperature of %s is right', async (temperature) => {
    writeFileSync(join(folder, 'warm.yaml'), changed('site:', `  temperature: ${temperature}`));
    const { code, stdout } = await runHere(folder, 'check', 'warm.yaml');
    expect(code).toBe(0);
    expect(stdout).toContain(temperature);
  });
});
