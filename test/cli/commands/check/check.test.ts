import { describe, expect, it } from 'vitest';
import { BURDOCK, emptyFolder } from '../../command-line.js';
import { runHere } from '../../in-process.js';

const plain = (text: string) => text.replace(/\s+/g, ' ');

describe('check', () => {
  it('answers first whether it flies, and ends with 0', async () => {
    const { code, stdout } = await runHere('.', 'check', BURDOCK);
    expect(code).toBe(0);
    expect(stdout).toMatch(/^It flies: thrust is \d\.\d\d of the weight on site/);
    expect(stdout.indexOf('No figure is beyond what such parts usually do')).toBeLessThan(stdout.indexOf('Inputs'));
    expect(stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
  });

  it('ends with 1 where it does not fly, and says so first', async () => {
    const { code, stdout } = await runHere('.', 'check', BURDOCK, '--set', 'can.mass=4.8 kg');
    expect(code).toBe(1);
    expect(stdout).toMatch(/^It does not fly: 0\.\d\d of the weight; more than 1 is needed, 1\.5 is little\./);
    expect(plain(stdout)).toMatch(/Not plausible: look at these first ! .*can\.mass is 4800 g; the law in the file/);
  });

  it('names the bare minimum as no plan, and sends from its ranking to that of the report', async () => {
    const { stdout } = await runHere('.', 'check', BURDOCK);
    expect(stdout).toMatch(/^ {2}bare minimum of one ordinary flight, not a plan +\S+ +\S+ +m$/m);
    expect(plain(stdout)).toMatch(/Ranked is only what the hand calculation feels.*report of `assess` ranks/);
  });

  it('checks a scenario whose height and limit are still to decide, and says what is', async () => {
    const folder = emptyFolder();
    await runHere(folder, 'init');
    const { code, stdout, stderr } = await runHere(folder, 'check', 'payload.yaml');
    expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
    expect(stdout).toMatch(/^It flies/);
    expect(plain(stdout)).toMatch(
      /Still to decide, by you.*plan\.throttle_up_height: .*criteria\.ground_impact_risk: .*No height is planned, so this flight throttles up at \d+ m/,
    );
    expect(stdout).toMatch(/^ {2}true height at the cue +- +- +m$/m);
    expect(stdout).not.toMatch(/NaN|undefined/);

    const height = await runHere(folder, 'check', 'payload.yaml', '--set', 'plan.throttle_up_height=240 m', '--json');
    const said = JSON.parse(height.stdout);
    expect(said.open.map(({ path }: { path: string }) => path)).toEqual(['criteria.ground_impact_risk']);
    expect(said).toMatchObject({ answer: { flies: true }, standInHeight: null, doubts: [] });
  });
});
