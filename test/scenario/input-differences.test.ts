import { describe, expect, it } from 'vitest';
import { readScenario } from '../../sim/scenario/file/read.js';
import { inputDifferences } from '../../sim/scenario/input-differences.js';
import { burdock } from '../ensemble/burdock.js';

function variant(name: string) {
  const read = readScenario(`configs/burdock-${name}.yaml`);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  return read.value;
}

describe('in what two scenarios differ', () => {
  it('is nothing for one and the same', () => {
    expect(inputDifferences(burdock(), burdock())).toEqual([]);
  });

  it('is what the files say, old and new, in the order of the mission', () => {
    expect(inputDifferences(burdock(), variant('late-arms'))).toEqual([
      { path: 'arms.release', a: 'after ejection', b: 'on the order' },
      { path: 'arms.release_delay', a: 'normal, mean 2 s, sd 0.3 s', b: '0.1 s' },
    ]);
  });

  it('shows a section that only one of them has as left out in the other', () => {
    const found = inputDifferences(burdock(), variant('parachute'));
    expect(found).toContainEqual({ path: 'parachute.diameter', a: null, b: '0.9 m' });
    expect(found.map(({ path }) => path)).toContain('can.mass');
  });

  it('is not another way to write the same, nor the title', () => {
    expect(inputDifferences(burdock(), burdock('can.length=0.21 m', 'title=Other'))).toEqual([]);
  });

  it('says which of two numbers nobody has measured', () => {
    const guess = 'can.length={uniform: {from: 200 mm, to: 220 mm}, kind: fixed but not measured}';
    expect(inputDifferences(burdock(), burdock(guess))[0].b).toMatch(/^uniform, from 200 mm.*not measured$/);
  });

  it('holds lists and correlations against each other', () => {
    const other = burdock('site.keep_out=[]', 'correlations=[{between: [wind.speed, site.temperature], rank: 0.3}]');
    expect(inputDifferences(burdock(), other)).toEqual([
      { path: 'site.keep_out', a: expect.stringContaining('spectators'), b: 'none' },
      { path: 'correlations', a: null, b: 'site.temperature with wind.speed: 0.3' },
    ]);
  });
});
