/** Lays out text in the columns of the terminal. */

const NARROWEST = 60;
/** Longer lines are hard to read. */
const WIDEST = 100;
/** Where no terminal says how wide it is: a file, a pipe. */
const USUAL = 80;

/** Columns to print in: those of the terminal within reason. */
export function widthOf({ isTTY, columns }: { readonly isTTY?: boolean; readonly columns?: number }): number {
  if (isTTY !== true || columns === undefined || !(columns > 0)) return USUAL;
  return Math.min(WIDEST, Math.max(NARROWEST, columns));
}

export const WIDTH = widthOf(process.stdout);

/**
 * Breaks text at spaces so that every line leaves room for the indent; later lines are indented. A longer word stands
 * alone. Spaces that do not break keep a figure with its unit, and are printed as plain ones.
 */
export function wrapped(text: string, indent = 0, width = WIDTH): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \t\n]+/).filter((part) => part !== '')) {
    const room = width - indent;
    if (line !== '' && line.length + 1 + word.length > room) {
      lines.push(line);
      line = word;
    } else line = line === '' ? word : `${line} ${word}`;
  }
  lines.push(line);
  return lines.map(plainSigns).map((one, index) => (index === 0 ? one : `${' '.repeat(indent)}${one}`));
}

/** Print's own signs as every terminal has them. */
export function plainSigns(text: string): string {
  return text.replace(/[\u00a0\u202f]/g, ' ').replaceAll('\u2212', '-');
}

/** A label and text beside it, later lines under the text. */
export function labelled(label: string, text: string, indent = 9): readonly string[] {
  return wrapped(text, indent, WIDTH).map((line, index) => (index === 0 ? label.padEnd(indent) + line : line));
}

/** A paragraph, all of it indented, later lines a little more. */
export function paragraph(text: string, indent = 2, more = 0): readonly string[] {
  return wrapped(text, indent + more).map((line, index) => (index === 0 ? ' '.repeat(indent) + line : line));
}

/** A cell is not folded to less than this. */
const LEAST_CELL = 12;

/** Rows as aligned columns; the columns named in `right` are flush right. Where they are too wide the widest are folded. */
export function columns(
  rows: readonly (readonly string[])[],
  indent = 2,
  right: readonly number[] = [],
  width = WIDTH,
): readonly string[] {
  const folded = foldWidest(rows, indent, width);
  const widths = widthsOf(folded);
  return folded.map((row) => {
    const cells = row.map((cell, column) =>
      right.includes(column) ? cell.padStart(widths[column]) : cell.padEnd(widths[column]),
    );
    return `${' '.repeat(indent)}${cells.join('  ')}`.trimEnd();
  });
}

function widthsOf(rows: readonly (readonly string[])[]): readonly number[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  return Array.from({ length: count }, (_, column) => Math.max(...rows.map((row) => (row[column] ?? '').length)));
}

/** Takes what is too much from the widest column, as far as its words let it, then from the next. */
function foldWidest(
  rows: readonly (readonly string[])[],
  indent: number,
  width: number,
): readonly (readonly string[])[] {
  const widths = widthsOf(rows);
  let excess = indent + widths.reduce((sum, one) => sum + one + 2, -2) - width;
  if (excess <= 0) return rows;
  const rooms = [...widths];
  for (const column of [...widths.keys()].sort((a, b) => widths[b] - widths[a])) {
    const longest = Math.max(...rows.map((row) => longestWord(row[column] ?? '')));
    const room = Math.min(rooms[column], Math.max(LEAST_CELL, longest, rooms[column] - excess));
    excess -= rooms[column] - room;
    rooms[column] = room;
    if (excess <= 0) break;
  }
  return rows.flatMap((row) => {
    const cells = row.map((cell, column) => (cell.length > rooms[column] ? wrapped(cell, 0, rooms[column]) : [cell]));
    const height = Math.max(...cells.map((lines) => lines.length));
    return Array.from({ length: height }, (_, line) => cells.map((lines) => lines[line] ?? ''));
  });
}

function longestWord(text: string): number {
  return Math.max(...text.split(' ').map((word) => word.length));
}
