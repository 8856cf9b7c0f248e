import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assess } from '../../sim/assess/assess.js';
import { flightsCsv } from '../../sim/assess/csv.js';
import { parseResult } from '../../sim/assess/json.js';
import { resultJson } from '../../sim/basics/result-json.js';
import { createMaker } from '../../sim/ensemble/fly-block.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { burdock } from '../ensemble/burdock.js';
import { meansOf } from '../ensemble/fake-maker.js';
import { memoryFiles } from '../scenario/file/memory-files.js';
import { firstNonsense } from './nonsense.js';

const TEXT = readFileSync('configs/burdock.yaml', 'utf8');
const INPUTS = burdock().inputs;
const UNITS = [...new Set(INPUTS.map(({ unit }) => unit))];
/** Falls that take hours would only make the test slow. */
const BRIEF = 'time_limit=60 s';

/** Changes as somebody might type them: right units and wrong ones, sensible sizes and absurd ones. */
const change = fc
  .record({
    input: fc.constantFrom(...INPUTS),
    size: fc.constantFrom(-1, 0, 0.001, 0.1, 0.5, 1, 3, 10, 100, 1000, 1e6),
    wrongUnit: fc.option(fc.constantFrom(...UNITS), { freq: 6 }),
    form: fc.constantFrom('value', 'value', 'spread', 'spread', 'word'),
  })
  .map(({ input: { path, unit: ownUnit }, size, wrongUnit, form }) => {
    const unit = wrongUnit !== null && size === 3 ? wrongUnit : ownUnit;
    if (form === 'word') return `${path}=none`;
    const quantity = `${size} ${unit}`.trim();
    if (form === 'value') return `${path}=${quantity}`;
    const to = `${size + 1} ${unit}`.trim();
    return `${path}={ uniform: { from: ${quantity}, to: ${to} }, kind: varies from flight to flight }`;
  });

async function flownWithoutNonsense(scenario: Scenario): Promise<void> {
  const maker = createMaker(scenario, '1');
  const study = await assess(
    scenario,
    { seed: '1', flights: 2, heights: { kind: 'planned' }, overrides: [] },
    meansOf(scenario, maker),
  );
  if (study.status === 'refused') expect(study.messages.join('\n')).toMatch(/\S.*\.$/);
  if (study.status !== 'ok') return;
  expect(firstNonsense(study.value)).toBeNull();
  expect(parseResult([...resultJson(study.value)].join('')).status).toBe('ok');
  expect([...flightsCsv(study.value)].join('')).not.toMatch(/NaN|Infinity|undefined/);
}

describe('a mutated scenario', () => {
  it('is refused in words or flown without a number that is none, whatever entries are changed', async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(change, { minLength: 1, maxLength: 3 }), async (changes) => {
        const read = readScenario('configs/burdock.yaml', [...changes, BRIEF]);
        if (read.status === 'ok') await flownWithoutNonsense(read.value);
        else for (const message of read.messages) expect(message).toMatch(/found .*; expected /);
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('is refused in words or flown without a number that is none, whatever lines are lost, doubled or torn', async () => {
    const lines = TEXT.split('\n');
    const tear = fc.record({
      line: fc.nat(lines.length - 1),
      how: fc.constantFrom('lost', 'doubled', 'torn'),
      at: fc.nat(40),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(tear, { minLength: 1, maxLength: 3 }), async (tears) => {
        const torn = [...lines];
        for (const { line, how, at } of tears) {
          if (how === 'lost') torn[line] = '';
          else torn[line] = how === 'doubled' ? `${torn[line]}\n${torn[line]}` : torn[line].slice(0, at);
        }
        const read = readScenario('torn.yaml', [BRIEF], memoryFiles({ 'torn.yaml': torn.join('\n') }));
        if (read.status === 'ok') await flownWithoutNonsense(read.value);
        else for (const message of read.messages) expect(message).toMatch(/found .*; expected /);
      }),
      { numRuns: 40, seed: 7 },
    );
  });
});
