/** A problem of a scenario file: its place, what was found there, what to write instead. */

/** A place in a file, as editors count: line and column from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

export interface Problem extends Place {
  /** The entry in the scenario, such as "can.mass"; empty for the file as a whole. */
  readonly path: string;
  /** What stands there and what is wrong with it, as "\"610\", a number without a unit". */
  readonly found: string;
  /** What should stand there, as "a mass with its unit, such as \"420 g\"". */
  readonly expected: string;
  /** The nearest valid name, where something was probably misspelt. */
  readonly nearest: string | null;
}

/** Takes note of a problem; the reading goes on, so that all of them are found at once. */
export type Report = (place: Place, path: string, found: string, expected: string, nearest?: string | null) => void;

/** A report that collects the problems into a list. */
export function collector(problems: Problem[]): Report {
  return ({ file, line, column }, path, found, expected, nearest = null) => {
    problems.push({ file, line, column, path, found, expected, nearest });
  };
}

/** One line that a person can act on: where, what was found, what to write instead. */
export function describeProblem(problem: Problem): string {
  const { file, line, column, path, found, expected, nearest } = problem;
  const about = path === '' ? '' : `${path}: `;
  const meant = nearest === null ? '' : ` Did you mean "${nearest}"?`;
  return cleanText(`${file}:${line}:${column}: ${about}found ${found}; expected ${expected}.${meant}`);
}

/** Problems in the order of the files as given, and in the order of their places in each file; the same problem once. */
export function inFileOrder(problems: readonly Problem[], files: readonly string[]): readonly Problem[] {
  const rank = (file: string) => (files.includes(file) ? files.indexOf(file) : files.length);
  const sorted = [...problems].sort((a, b) => rank(a.file) - rank(b.file) || a.line - b.line || a.column - b.column);
  return sorted.filter(
    (problem, index) => index === 0 || describeProblem(problem) !== describeProblem(sorted[index - 1]),
  );
}

/** Text on one line and without control characters, which a terminal or a page must not obey. */
export function cleanText(text: string): string {
  return text
    .replace(/[\p{Cc}\p{Cs}\p{Bidi_Control}]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

/** Text in quotes for a message, cut where it is long. */
export function quoted(text: string): string {
  const clean = cleanText(text);
  return `"${clean.length > 60 ? `${clean.slice(0, 57)}...` : clean}"`;
}
