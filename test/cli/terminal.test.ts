import { describe, expect, it } from 'vitest';
import { assessSummary, verdictLines } from '../../cli/terminal/assess-summary.js';
import { columns, labelled, wrapped } from '../../cli/terminal/layout.js';
import { createProgress } from '../../cli/terminal/progress.js';
import { paintFor } from '../../cli/terminal/streams.js';
import { fakeResult } from '../result/fake-result.js';

const plain = (_style: string, text: string) => text;

describe('the summary of an assessment', () => {
  it.each([
    [3, /^WITHIN the limits: throttling up at 250 m/],
    [20, /^ABOVE the limits/],
    [6, /^NOT SHOWN[\s\S]*would settle it/],
  ])('with %d failures in 100 begins with the verdict', async (failures, beginning) => {
    const result = await fakeResult(failures, 1000);
    expect(assessSummary(result, plain).join('\n')).toMatch(beginning);
  });

  it('fits 80 columns, whatever the scenario is called', async () => {
    const result = await fakeResult(7, 500, `title=${'Long '.repeat(40)}`);
    for (const line of assessSummary(result, plain)) expect(line.length).toBeLessThanOrEqual(80);
  });

  it('names criteria with limit and value, causes, heights and warnings with advice', async () => {
    const text = assessSummary(await fakeResult(7, 500), plain).join('\n');
    expect(text).toMatch(/ground impact +limit 5 % +7\.\d % .* above/);
    expect(text).toMatch(/reaction +7\.\d % /);
    expect(text).toMatch(/250 m .* planned/);
    expect(text).toMatch(/! The numbers of this scenario are invented[\s\S]*Write your own/);
  });

  it('says when it is partial', async () => {
    const result = { ...(await fakeResult(3)), partial: true };
    expect(verdictLines(result, plain).join(' ')).toContain('Interrupted after 200 flights');
  });

  it('names the criterion that decides where it is not the ground impact', async () => {
    const result = await fakeResult(1, 1000, 'criteria.recovery_circle.radius=1 m');
    expect(verdictLines(result, plain).join(' ')).toMatch(/^ABOVE.*What decides is "outside the recovery circle"/);
  });
});

describe('the layout', () => {
  it('breaks lines at spaces and keeps every word', () => {
    const text = 'one two three four five six seven eight nine ten';
    const lines = wrapped(text, 4, 20);
    expect(lines.every((line) => line.length <= 20)).toBe(true);
    expect(lines.join(' ').split(/\s+/)).toEqual(text.split(' '));
  });

  it('puts the text beside its label', () => {
    expect(labelled('Written:', 'a b', 10)).toEqual(['Written:  a b']);
  });

  it('aligns columns', () => {
    expect(
      columns(
        [
          ['a', '1'],
          ['bbb', '22'],
        ],
        0,
        [1],
      ),
    ).toEqual(['a     1', 'bbb  22']);
  });
});

describe('the progress', () => {
  function watch(isTTY: boolean, seconds: number) {
    const written: string[] = [];
    let now = 0;
    const stream = { isTTY, write: (text: string) => written.push(text) };
    const progress = createProgress(stream, 'flights', () => now);
    for (; now < seconds; now += 0.01) progress.update(now, seconds);
    progress.end();
    return written;
  }

  it('redraws one line on a terminal, at most ten times a second, with the time left', () => {
    const written = watch(true, 2);
    expect(written.length).toBeGreaterThan(10);
    expect(written.length).toBeLessThan(23);
    expect(written.every((text) => text.startsWith('\r'))).toBe(true);
    expect(written[10]).toMatch(/\d+ %, about \d s left/);
    expect(written[written.length - 1]).toBe('\r\u001b[K');
  });

  it('writes a few lines to a log, however long it takes', () => {
    const written = watch(false, 3600);
    expect(written.length).toBeLessThan(10);
    expect(written.every((text) => text.endsWith('\n') && !text.includes('\u001b'))).toBe(true);
  });
});

describe('colour', () => {
  const terminal = { isTTY: true } as NodeJS.WriteStream;

  it('is used on a terminal, and not where NO_COLOR is set or nobody looks', () => {
    const { NO_COLOR, TERM } = process.env;
    try {
      delete process.env.NO_COLOR;
      process.env.TERM = 'xterm';
      expect(paintFor(terminal)('red', 'x')).toContain('\u001b[');
      expect(paintFor({ isTTY: false } as NodeJS.WriteStream)('red', 'x')).toBe('x');
      process.env.NO_COLOR = '1';
      expect(paintFor(terminal)('red', 'x')).toBe('x');
    } finally {
      for (const [name, value] of Object.entries({ NO_COLOR, TERM })) {
        if (value === undefined) delete process.env[name];
        else process.env[name] = value;
      }
    }
  });
});
