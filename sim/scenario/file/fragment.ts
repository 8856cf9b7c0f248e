/** Pieces of a scenario as YAML text, in the style of a hand-written file. */
import { Document, isMap } from 'yaml';

/** An entry of a scenario: values with their units as text, numbers, and sections of these. */
export interface Piece {
  readonly [key: string]: string | number | Piece | readonly (string | number | Piece)[];
}

/** Sections nested deeper than `block` levels stand in braces on a single line. */
export function yamlText(piece: Piece, block: number): string {
  const document = new Document(piece);
  foldDeep(document.contents, block);
  return document.toString({ lineWidth: 0, flowCollectionPadding: true }).trimEnd();
}

function foldDeep(node: unknown, block: number): void {
  if (typeof node !== 'object' || node === null || !('items' in node)) return;
  if (block <= 0) (node as { flow?: boolean }).flow = true;
  if (!isMap(node)) {
    (node as { flow?: boolean }).flow = true;
    return;
  }
  for (const { value } of node.items) foldDeep(value, block - 1);
}

/** The entry inside the sections of its path, to be pasted into a scenario. */
export function atPath(path: string, piece: Piece): Piece {
  return path.split('.').reduceRight<Piece>((inner, key) => ({ [key]: inner }), piece);
}

/** Block levels that show an input: its own, and that of a family whose parameters are sections themselves. */
export function blockLevels(piece: Piece): number {
  const nested = Object.values(piece).some(
    (value) =>
      typeof value === 'object' &&
      !Array.isArray(value) &&
      Object.values(value).some((part) => typeof part === 'object' && !Array.isArray(part)),
  );
  return nested ? 2 : 1;
}

/** A value to `digits` significant digits, or to a hundredth of its spread where that is finer. */
export function figure(value: number, spread = 0, digits = 4): number {
  if (value === 0 || !Number.isFinite(value)) return 0;
  const finer = spread > 0 ? Math.ceil(Math.log10(Math.abs(value))) - Math.floor(Math.log10(spread)) + 2 : digits;
  return Number(value.toPrecision(Math.min(12, Math.max(digits, finer))));
}

export function withUnit(value: number, unit: string): string | number {
  return unit === '' ? value : unit === '%' ? `${value} %` : `${value} ${unit}`;
}
