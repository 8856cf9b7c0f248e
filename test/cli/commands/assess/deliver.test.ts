import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { deliverAssessment } from '../../../../cli/commands/assess/deliver.js';
import type { AssuranceResult } from '../../../../sim/assess/decisions.js';
import type { AssessResult } from '../../../../sim/assess/result.js';
import { fakeResult } from '../../../assess/fake-result.js';
import { emptyFolder } from '../../command-line.js';

function listen(name: 'stdout' | 'stderr') {
  const said: string[] = [];
  vi.spyOn(process[name], 'write').mockImplementation((text) => {
    said.push(String(text));
    return true;
  });
  return () => said.join('');
}

afterEach(() => {
  vi.restoreAllMocks();
});

const delivered = (result: AssessResult, ...paths: readonly string[]) =>
  deliverAssessment(result, paths, { json: false, quiet: true, repeat: 'fallmargin assess payload.yaml' });
const assurance = (met: boolean): AssuranceResult => ({ demanded: 0.9, worlds: null, met });

describe('the exit code of an assessment', () => {
  it.each([
    ['0 within every limit', 1, {}, 0],
    ['1 above one', 20, {}, 1],
    ['1 where it is not shown', 5, {}, 1],
    ['0 within the limits and assured', 1, { assurance: assurance(true) }, 0],
    ['1 within the limits, but not in as many worlds as demanded', 1, { assurance: assurance(false) }, 1],
    ['130 interrupted, whatever the verdict', 1, { partial: true }, 130],
  ] as const)('is %s', async (_what, failures, changes, code) => {
    listen('stdout');
    expect(await delivered({ ...(await fakeResult(failures, 1000)), ...changes })).toBe(code);
  });
});

describe('a file that cannot be written after all', () => {
  it('takes away neither the answer nor the other files', async () => {
    const folder = emptyFolder();
    const stdout = listen('stdout');
    const files = [join(folder, 'gone', 'study.csv'), join(folder, 'study.json')];
    expect(await delivered(await fakeResult(1, 1000), ...files)).toEqual({
      status: 'refused',
      messages: [expect.stringMatching(/study\.csv" could not be written/)],
    });
    expect(stdout()).toMatch(/^◐ WITHIN/);
    expect(existsSync(files[1])).toBe(true);
  });
});
