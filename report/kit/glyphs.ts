/**
 * Widths of the glyphs of a common sans-serif face in thousandths of the font size. No canvas measures text in Node,
 * and the reader's own font is unknown: these are the widths of Helvetica, and a little is added for wider faces.
 */
const WIDTHS: Readonly<Record<number, string>> = {
  222: 'ijl',
  278: ' ftI.,:;/!|',
  333: 'r-()[]\u2013',
  500: 'ckszvxyJ',
  556: 'abdeghnopqu0123456789L_$',
  584: '+=<>~\u2212\u2264\u2265\u00d7',
  611: 'FTZ',
  667: 'ABEKPSVXY&',
  722: 'wCDHNRU',
  778: 'GOQ',
  833: 'mM',
  889: '%',
  944: 'W',
  1000: '\u2014\u2191\u2193\u2192',
};
const COMMON_WIDTH = 600;
const WIDER_FACES = 1.16;

const widthOf = new Map<string, number>();
for (const [width, glyphs] of Object.entries(WIDTHS)) {
  for (const glyph of glyphs) widthOf.set(glyph, Number(width));
}

/** Width of a text in units of its font size. */
export function textWidth(text: string): number {
  let thousandths = 0;
  for (const glyph of text) thousandths += widthOf.get(glyph) ?? COMMON_WIDTH;
  return (thousandths / 1000) * WIDER_FACES;
}
