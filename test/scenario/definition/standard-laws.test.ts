/** Inputs that no file need give, and by which law they are then drawn: nothing of the air is off because nobody measured it. */
import { expect, test } from 'vitest';
import { leafPaths } from '../../../sim/scenario/definition/leaves.js';
import { standardOf } from '../../../sim/scenario/file/standard.js';

test.each([['pilot.call_out.flow_error', 'fixed but not measured', { family: 'normal', mean: 0.2, sd: 0.15 }]])(
  '%s: %s, %j',
  (path, kind, distribution) => {
    const leaf = leafPaths().find((one) => one.path === path);
    if (leaf === undefined) throw new Error(`${path} is none`);
    expect(standardOf(leaf.entry)).toMatchObject({ input: { value: { kind, distribution }, source: 'standard' } });
  },
);
