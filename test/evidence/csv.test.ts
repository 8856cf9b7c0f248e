import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { columnIndex, openCsv, readNumbers } from '../../sim/evidence/csv.js';

function numbers(text: string, ...places: readonly number[]) {
  const table = openCsv(text, 'log.csv');
  return table.status === 'refused' ? table : readNumbers(table.value, places.length === 0 ? [0] : places);
}

function column(text: string, place = 0): readonly number[] {
  const read = numbers(text, place);
  if (read.status === 'refused') throw new Error(read.messages.join('\n'));
  return [...read.value.columns[0]];
}

function messages(text: string, ...places: readonly number[]): readonly string[] {
  const read = numbers(text, ...places);
  return read.status === 'refused' ? read.messages : [];
}

describe('a table of numbers', () => {
  it.each([
    ['commas', 'a,b\n1,2\n3,4\n'],
    ['semicolons', 'a;b\n1;2\n3;4\n'],
    ['tabs', 'a\tb\n1\t2\n3\t4'],
    ['carriage returns', 'a,b\r\n1,2\r\n3,4\r\n'],
    ['a byte order mark', '\ufeffa,b\n1,2\n3,4\n'],
    ['quotes', '"a","b"\n"1","2"\n"3","4"\n'],
    ['blank lines and remarks', '# logger 3\n\na,b\n1,2\n\n# pause\n3,4\n'],
    ['spaces', ' a , b \n 1 , 2 \n 3 , 4 \n'],
    ['a separator at the end of each row', 'a,b,\n1,2,\n3,4,\n'],
    ['no header', '1,2\n3,4\n'],
  ])('is read with %s', (_, text) => {
    expect(column(text, 1)).toEqual([2, 4]);
  });

  it('is read with decimal commas between semicolons', () => {
    expect(column('t;h\n0,5;12,25\n-1,5e2;,5\n')).toEqual([0.5, -150]);
  });

  it('is read with gaps: empty cells, short rows and what loggers write for no reading', () => {
    expect(column('t,h\n0,1\n1,\n2\n3,nan\n4,NaN\n5,-\n', 1)).toEqual([1, ...new Array(5).fill(Number.NaN)]);
  });

  it('is refused where two columns bear the wanted name', () => {
    const table = openCsv('t,h,t\n0,1,2\n', 'log.csv');
    if (table.status === 'refused') throw new Error();
    expect(columnIndex(table.value, 'h', '--column')).toEqual({ status: 'ok', value: 1 });
    expect(columnIndex(table.value, 't', '--column')).toMatchObject({
      messages: ['"log.csv" has 2 columns "t" (--column); give each a name of its own.'],
    });
  });

  it('names the line of a text in a number', () => {
    expect(messages('t,h\n0,1\n1,abc\n', 1)).toEqual([
      'log.csv:3: found "abc" in column "h"; expected a number, or nothing where there is no reading.',
    ]);
  });

  it('counts lines from the top of the file, remarks and blank lines too', () => {
    expect(messages('# one\n\nt,h\n0,1\n\n1,x\n', 1)[0]).toMatch(/^log\.csv:6: /);
  });

  it.each([
    ['1.3 s', /unit is said once/],
    ['1,234.5', /4 cells|3 cells|decimal commas/],
    ['1.234.567', /marks between thousands/],
  ])('says what to write instead of %j', (cell, words) => {
    expect(messages(`t,h\n0,${cell}\n`, 1)[0]).toMatch(words);
  });

  it('suspects decimal commas where commas separate', () => {
    expect(messages('t,h\n0,5,12,25\n')[0]).toMatch(/found 4 cells, but the header names 2 columns.*semicolons/);
  });

  it('names five problems and counts the rest', () => {
    const found = messages(`t\n${'x\n'.repeat(9)}`);
    expect(found).toHaveLength(6);
    expect(found[5]).toMatch(/4 more/);
  });

  it('is refused in another encoding, or when nothing is in it', () => {
    expect(openCsv('t\0,\0h\0', 'log.csv').status).toBe('refused');
    expect(openCsv('', 'log.csv').status).toBe('refused');
    expect(openCsv('# only\n\n', 'log.csv').status).toBe('refused');
  });

  it('suggests the column that was probably meant', () => {
    const table = openCsv('time_s,height_m\n1,2\n', 'log.csv');
    if (table.status === 'refused') throw new Error();
    expect(columnIndex(table.value, 'HEIGHT_M', '--height')).toEqual({ status: 'ok', value: 1 });
    expect(columnIndex(table.value, 'heigth_m', '--height')).toMatchObject({
      messages: [expect.stringMatching(/Did you mean "height_m"/)],
    });
  });

  it('of very many rows is read whole, in their order', () => {
    const rows = 300_000; // more than a call takes arguments or a first guess of the room holds
    const text = `t,g\n${Array.from({ length: rows }, (_, i) => `${i / 100},${i % 16}\n`).join('')}`;
    const values = column(text, 0);
    expect(values).toHaveLength(rows);
    expect([...values].findIndex((value, i) => value !== i / 100)).toBe(-1);
  });

  it('never throws and never yields an infinite number, whatever the text', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom('1', '9', ',', ';', '\n', '"', '.', '-', 'e', 'x', ' ', '#') }),
        (text) => {
          const read = numbers(text);
          if (read.status === 'ok')
            expect(read.value.columns[0].every((value) => Math.abs(value) !== Number.POSITIVE_INFINITY)).toBe(true);
          else expect(read.messages.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 500 },
    );
  });
});
