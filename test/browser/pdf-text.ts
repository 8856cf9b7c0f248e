/**
 * The text of each page of a PDF that Chromium wrote, without spaces and ligatures: glyphs by number, turned into letters by the
 * font's own table (ISO 32000-1:2008, 9.4 and 9.10.3). Enough for a printed report, and for nothing else.
 */
import { inflateSync } from 'node:zlib';

interface PdfObject {
  readonly head: string;
  readonly stream: string;
}

export function pdfPages(pdf: Buffer): readonly string[] {
  const objects = objectsOf(pdf);
  const fonts = new Map<string, ReadonlyMap<number, string>>();
  const lettersOf = (font: string): ReadonlyMap<number, string> => {
    const known = fonts.get(font) ?? lettersFrom(objects.get(reference(objects.get(font)?.head, 'ToUnicode'))?.stream);
    fonts.set(font, known);
    return known;
  };
  return [...objects.values()]
    .filter(({ head }) => /\/Type\s*\/Page\b/.test(head))
    .map(({ head }) => {
      const names = new Map([...head.matchAll(/\/(F\d+)\s+(\d+) 0 R/g)].map(([, name, id]) => [name, id]));
      return textOf(objects.get(reference(head, 'Contents'))?.stream ?? '', (name) => lettersOf(names.get(name) ?? ''));
    });
}

function objectsOf(pdf: Buffer): ReadonlyMap<string, PdfObject> {
  const text = pdf.toString('latin1');
  const found = [...text.matchAll(/^(\d+) 0 obj\s([\s\S]*?)(?:stream\r?\n([\s\S]*?)\r?\nendstream\s)?endobj/gm)];
  return new Map(
    found.map(([, id, head, stream]) => [id, { head, stream: stream === undefined ? '' : inflated(head, stream) }]),
  );
}

function inflated(head: string, stream: string): string {
  if (!head.includes('/FlateDecode')) return stream;
  return inflateSync(Buffer.from(stream, 'latin1'), { finishFlush: 2 }).toString('latin1');
}

function reference(head: string | undefined, key: string): string {
  return new RegExp(`/${key}\\s+(\\d+) 0 R`).exec(head ?? '')?.[1] ?? '';
}

function lettersFrom(table = ''): ReadonlyMap<number, string> {
  const letters = new Map<number, string>();
  const number = (hex: string) => Number.parseInt(hex, 16);
  const text = (hex: string) => Buffer.from(hex, 'hex').swap16().toString('utf16le');
  for (const [, block] of table.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, glyph, letter] of block.matchAll(/<([0-9A-F]+)>\s*<([0-9A-F]+)>/gi))
      letters.set(number(glyph), text(letter));
  for (const [, block] of table.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, from, to, first] of block.matchAll(/<([0-9A-F]+)>\s*<([0-9A-F]+)>\s*<([0-9A-F]+)>/gi))
      for (let glyph = number(from); glyph <= number(to); glyph++)
        letters.set(glyph, String.fromCodePoint(number(first) + glyph - number(from)));
  return letters;
}

function textOf(content: string, lettersOf: (font: string) => ReadonlyMap<number, string>): string {
  let letters: ReadonlyMap<number, string> = new Map();
  let text = '';
  for (const [, font, shown] of content.matchAll(/\/(F\d+) [\d.]+ Tf|(<[0-9A-F]+>|\[[^\]]*\])\s*T[jJ]/gi)) {
    if (font !== undefined) letters = lettersOf(font);
    for (const [, glyphs] of (shown ?? '').matchAll(/<([0-9A-F]+)>/gi))
      for (const glyph of glyphs.match(/.{4}/g) ?? []) text += letters.get(Number.parseInt(glyph, 16)) ?? '';
  }
  return text.normalize('NFKC').replace(/\s+/g, '');
}
