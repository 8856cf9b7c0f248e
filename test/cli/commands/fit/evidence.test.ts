import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { BURDOCK, emptyFolder, filesIn } from '../../command-line.js';
import { runHere } from '../../in-process.js';

const REACTIONS = resolve('configs/burdock-reaction-times.csv');
const LOG = resolve('configs/burdock-flight-log.csv');
const STAND = resolve('configs/burdock-thrust-stand.csv');

/** A folder with the demo scenario in it. */
function folderWithBurdock(): string {
  const folder = emptyFolder();
  copyFileSync(BURDOCK, join(folder, 'burdock.yaml'));
  return folder;
}

describe('fit', () => {
  it('writes page, result and the entry into the scenario, which reads it back', async () => {
    const folder = folderWithBurdock();
    const ran = await runHere(
      folder,
      'fit',
      REACTIONS,
      '--column',
      'reaction_s',
      '--unit',
      's',
      '--path',
      'pilot.reaction',
      '--into',
      'burdock.yaml',
    );
    expect(ran.code).toBe(0);
    expect(ran.stdout).toContain('log-normal');
    expect(filesIn(folder)).toEqual([
      'burdock-reaction-times-fit.html',
      'burdock-reaction-times-fit.json',
      'burdock.yaml',
    ]);
    const check = await runHere(folder, 'check', 'burdock.yaml');
    expect(check.code).toBe(0);
    expect(check.stdout.replace(/\s+/g, ' ')).toContain('median 0.9787 s, spread 0.0739; not measured');
  });

  it('gives JSON alone, and `report` makes its page again', async () => {
    const folder = emptyFolder();
    const { stdout } = await runHere(folder, 'fit', STAND, '--thrust-stand', '--json');
    expect(filesIn(folder)).toEqual([]);
    expect(JSON.parse(stdout)).toMatchObject({ kind: 'fit', form: 'thrust stand', rotors: 1 });
    writeFileSync(join(folder, 'stand.json'), stdout);
    expect(await runHere(folder, 'report', 'stand.json')).toMatchObject({ code: 0 });
    expect(readFileSync(join(folder, 'stand.html'), 'utf8')).toContain('What the stand says');
    writeFileSync(join(folder, 'broken.json'), stdout.replace('"partThrottle"', '"part"'));
    expect(await runHere(folder, 'report', 'broken.json')).toMatchObject({
      code: 2,
      stderr: expect.stringMatching(/damaged: "partThrottle" is missing/),
    });
  });

  it('takes trials and failures without a file', async () => {
    const folder = folderWithBurdock();
    const words = ['--trials', '40', '--failures', '1', '--path', 'arms.stuck', '--into', 'burdock.yaml'];
    expect(await runHere(folder, 'fit', ...words)).toMatchObject({ code: 0 });
    expect(readFileSync(join(folder, 'burdock.yaml'), 'utf8')).toContain('    trials: 40\n    failures: 1\n');
  });

  it.each([
    [['fit'], /needs a data file/],
    [['fit', REACTIONS], /needs --column; the columns of "burdock-reaction-times.csv" are "trial", "reaction_s"/],
    [['fit', REACTIONS, '--column', 'reaction'], /Did you mean "reaction_s"/],
    [['fit', REACTIONS, '--column', 'reaction_s'], /needs the unit/],
    [['fit', REACTIONS, '--column', 'reaction_s', '--unit', 's', '--family', 'gamma'], /--family is "gamma"/],
    [['fit', REACTIONS, '--column', 'reaction_s', '--unit', 's', '--into', 'x.yaml'], /--into needs --path/],
    [['fit', 'none.csv', '--column', 'a'], /could not be read: there is no such file/],
    [['fit', '--trials', '40'], /go together/],
    [['fit', '--trials', '40', '--failures', '1', '--unit', 's'], /with --trials, --unit is not used/],
    [['fit', REACTIONS, '--column', 'reaction_s', '--unit', 's', '--rotors', '4'], /--rotors is not used/],
    [['fit', STAND, '--thrust-stand', '--column', 'a', '--path', 'can.mass'], /--column and --path are not used/],
    [['fit', STAND, '--thrust-stand', '--density', '1.2'], /--density is "1.2", a number without a unit/],
    [['reconstruct'], /needs a log/],
    [['reconstruct', REACTIONS], /no column for the time/],
    [['reconstruct', LOG, '--ejection-height', '700'], /--ejection-height is "700", a number without a unit/],
    [['reconstruct', LOG, '--air-temperature', '35 C'], /coulombs/],
    [['reconstruct', LOG, '--scenario', 'none.yaml'], /does not exist/],
    [['learn', BURDOCK], /needs a log/],
    [['learn', BURDOCK, '--flight', LOG, '--flight', LOG], /given twice/],
    [['learn', BURDOCK, '--flight', LOG, '--worlds', '3'], /--worlds is "3"/],
    [['learn', BURDOCK, '--flight', REACTIONS], /no column for the time/],
  ])('refuses %j with what to write instead, without a stack trace', async (words, message) => {
    const ran = await runHere(emptyFolder(), ...words);
    expect(ran.code).toBe(2);
    expect(ran.stderr).toMatch(message);
    expect(ran.stderr).not.toMatch(/ at .*:\d+:\d+/);
    expect(ran.stdout).toBe('');
  });
});

describe('reconstruct', () => {
  it('needs nothing but the log', async () => {
    const folder = emptyFolder();
    const ran = await runHere(folder, 'reconstruct', LOG);
    expect(ran.code).toBe(0);
    expect(ran.stdout).toMatch(/throttle up time +18\.5/);
    expect(filesIn(folder)).toEqual(['burdock-flight-log-flight.html', 'burdock-flight-log-flight.json']);
  });
});

describe('learn', () => {
  it('concludes nothing from a log that the scenario cannot explain, and says what does not fit', async () => {
    const folder = emptyFolder();
    for (const name of ['burdock.yaml', 'burdock-automatic.yaml', 'teasel.yaml'])
      copyFileSync(resolve('configs', name), join(folder, name));
    // The log of the demo flight fits no drop test: nothing may be concluded from it.
    const ran = await runHere(
      folder,
      'learn',
      'teasel.yaml',
      '--flight',
      LOG,
      '--worlds',
      '100',
      '--threads',
      '1',
      '--quiet',
    );
    expect(ran.code).toBe(2);
    expect(ran.stderr).toMatch(/worlds carry the weight, under 30/);
    expect(ran.stderr).toMatch(/standard deviations from what the scenario's flights do/);
    expect(filesIn(folder)).toEqual(['burdock-automatic.yaml', 'burdock.yaml', 'teasel.yaml']);
  });
});
