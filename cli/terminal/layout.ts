/** Lays out text for a terminal of 80 columns. */

export const WIDTH = 80;

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

/** Rows as aligned columns; the columns named in `right` are flush right. */
export function columns(
  rows: readonly (readonly string[])[],
  indent = 2,
  right: readonly number[] = [],
): readonly string[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: count }, (_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? '').length)),
  );
  return rows.map((row) => {
    const cells = row.map((cell, column) =>
      right.includes(column) ? cell.padStart(widths[column]) : cell.padEnd(widths[column]),
    );
    return `${' '.repeat(indent)}${cells.join('  ')}`.trimEnd();
  });
}
