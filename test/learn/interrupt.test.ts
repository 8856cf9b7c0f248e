/** Ctrl-C while plausible worlds are flown. */
import { writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { learn } from '../../cli/commands/learn/learn.js';
import { renderedPage } from '../../cli/commands/report/rendered.js';
import { runWords } from '../../cli/program.js';
import { createDrawer } from '../../sim/draws/drawer.js';
import { GOOD_SENSORS, logCsv, syntheticLog } from '../../sim/examples/flight-log.js';
import { createFlightModel } from '../../sim/flight/model.js';
import { readScenario } from '../../sim/scenario/file/read.js';
import { emptyFolder, filesIn, interrupted } from '../cli/command-line.js';

const TEASEL = resolve('configs/teasel.yaml');

/** A log of a drop test's heights alone, 10 m of noise on them: most worlds explain it. */
function writeLog(folder: string): string {
  const read = readScenario(TEASEL);
  if (read.status !== 'ok') throw new Error(JSON.stringify(read.problems));
  const [drawer, model] = [createDrawer(read.value, 'log'), createFlightModel(read.value)];
  const flown = (id: number) => {
    const draw = drawer.draw('explore', id);
    return model.trace(draw, draw.inputs.plan.throttle_up_height);
  };
  // The first that lands softly: the plan is low for this can.
  let id = 0;
  while (flown(id).record.outcome !== 0) id += 1;
  const trace = flown(id);
  const file = join(folder, 'log.csv');
  writeFileSync(file, logCsv(syntheticLog(trace, { ...GOOD_SENSORS, heightNoise: 10 }, 'log'), 'Invented.', 'height'));
  return file;
}

describe('learn, interrupted', () => {
  it('by a signal before worlds enough are flown, says that nothing is kept, writes nothing and exits with 130', async () => {
    const folder = emptyFolder();
    const log = writeLog(folder);
    const words = ['learn', TEASEL, '--flight', log, '--threads', '1', '--out', 'part', '--into', 'part.yaml'];
    const { code, stderr } = await interrupted(folder, ...words);
    expect(code).toBe(130);
    expect(stderr).toMatch(/Stopped after \d+ worlds[\s\S]*Nothing is kept, nothing was written\./);
    expect(filesIn(folder)).toEqual(['log.csv']);
  });

  it('with worlds enough, keeps what is known, marked partial, and exits with 130', async () => {
    const folder = emptyFolder();
    const log = writeLog(folder);
    // The progress on a terminal says how many flights there are; after 100 worlds comes the interrupt.
    let interrupt = () => {};
    const listen = (event: string | symbol, listener: () => void) => {
      if (event === 'SIGINT') interrupt = listener;
    };
    process.on('newListener', listen);
    const terminal = Object.getOwnPropertyDescriptor(process.stderr, 'isTTY');
    Object.defineProperty(process.stderr, 'isTTY', { value: true, configurable: true });
    let sent = false;
    const errors = vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
      const flown = /(\d+) of about/.exec(String(text));
      if (!sent && Number(flown?.[1]) >= 100 * 25) {
        sent = true;
        interrupt();
      }
      return true;
    });
    let said = '';
    const output = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
      said += text;
      return true;
    });
    try {
      const words = ['learn', TEASEL, '--flight', log, '--threads', '1', '--out', join(folder, 'part')];
      expect(await runWords([learn], [...words, '--json'])).toBe(130);
    } finally {
      process.off('newListener', listen);
      if (terminal) Object.defineProperty(process.stderr, 'isTTY', terminal);
      else Reflect.deleteProperty(process.stderr, 'isTTY');
      errors.mockRestore();
      output.mockRestore();
    }
    const result = JSON.parse(said);
    expect(result).toMatchObject({ kind: 'learn', partial: true, waves: [result.worlds] });
    expect(result.worlds).toBeGreaterThanOrEqual(100);
    expect(result.worlds).toBeLessThan(2000);
    expect(filesIn(folder)).toEqual(['log.csv', 'part.html', 'part.json']);
    expect(await renderedPage(said)).toMatchObject({ value: expect.stringContaining('stopped early') });
  });
});
