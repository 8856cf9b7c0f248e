import { describe, expect, it } from 'vitest';
import { columns, labelled, paragraph, widthOf, wrapped } from '../../cli/terminal/layout.js';
import { createProgress } from '../../cli/terminal/progress.js';
import { paintFor } from '../../cli/terminal/streams.js';

describe('the layout', () => {
  it('breaks lines at spaces and keeps every word', () => {
    const text = 'one two three four five six seven eight nine ten';
    const lines = wrapped(text, 4, 20);
    expect(lines.every((line) => line.length <= 20)).toBe(true);
    expect(lines.join(' ').split(/\s+/)).toEqual(text.split(' '));
  });

  it('keeps what print keeps together on one line, and has plain spaces and signs in it', () => {
    expect(wrapped('one two 3\u00a0% four \u22125\u00a0m', 0, 9)).toEqual(['one two', '3 % four', '-5 m']);
  });

  it('indents a paragraph, later lines a little more', () => {
    const lines = paragraph('word '.repeat(30), 2, 2);
    expect(lines.map((line) => /^ */.exec(line)?.[0].length)).toEqual([2, 4]);
    expect(lines.every((line) => line.length <= 80)).toBe(true);
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

describe('the width', () => {
  it('follows the terminal from 60 to 100 columns, and is 80 where there is none', () => {
    const widths = [40, 60, 73, 100, 200].map((columns) => widthOf({ isTTY: true, columns }));
    expect(widths).toEqual([60, 60, 73, 100, 100]);
    expect([widthOf({}), widthOf({ isTTY: false, columns: 70 }), widthOf({ isTTY: true })]).toEqual([80, 80, 80]);
  });

  it('folds the widest cells of a table that is too wide', () => {
    const rows = [
      ['a long name of a row here', '1.5', 'm'],
      ['short', '22', 's'],
    ];
    expect(columns(rows, 2, [1], 26)).toEqual([
      '  a long name of a  1.5  m',
      '  row here',
      '  short              22  s',
    ]);
    expect(columns(rows, 2, [1], 35)).toEqual([
      '  a long name of a row here  1.5  m',
      '  short                       22  s',
    ]);
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

  it('says the part that is flown, and no more digits of the whole than it bears', () => {
    const written: string[] = [];
    const stream = { isTTY: true, write: (text: string) => written.push(text) };
    let now = 0;
    const progress = createProgress(stream, 'flights', () => now);
    now = 10;
    progress.update(1000, 54_321, 'fresh flights');
    expect(written[0]).toContain('fresh flights: 1000 of about 54300 flights, 1 %');
    expect(written[0]).not.toContain('left');
    now = 20;
    progress.update(2000, 54_321, 'fresh flights');
    expect(written[1]).toMatch(/2000 of about 54300 flights, 3 %, about 9 min left$/);
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
      expect(paintFor(terminal)('yellow', 'x')).toContain('\u001b[');
      expect(paintFor({ isTTY: false } as NodeJS.WriteStream)('yellow', 'x')).toBe('x');
      process.env.NO_COLOR = '1';
      expect(paintFor(terminal)('yellow', 'x')).toBe('x');
    } finally {
      for (const [name, value] of Object.entries({ NO_COLOR, TERM })) {
        if (value === undefined) delete process.env[name];
        else process.env[name] = value;
      }
    }
  });
});
