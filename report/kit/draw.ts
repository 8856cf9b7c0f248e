/** A chart's specification becomes an SVG that follows the page's colours and fonts. */
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { escapeText } from './words/escape.js';

/** A vega-lite specification. The tests hold each one against vega-lite's own JSON Schema, which says more than its types. */
export type ChartSpec = Readonly<Record<string, unknown>>;

/** Draws one chart; `label` says in words what it shows. The tests put in a function that looks at the specification. */
export type Draw = (spec: ChartSpec, label: string) => Promise<string>;

/**
 * Widths of the glyphs of a common sans-serif face in thousandths of the font size. No canvas measures text in Node,
 * and the reader's own font is unknown: the widths are those of Helvetica, and a little is added for wider faces.
 */
const GLYPH_WIDTHS: Readonly<Record<number, string>> = {
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
const COMMON_GLYPH_WIDTH = 600;
const WIDER_FACES = 1.16;

const widthOfGlyph = new Map<string, number>();
for (const [width, glyphs] of Object.entries(GLYPH_WIDTHS)) {
  for (const glyph of glyphs) widthOfGlyph.set(glyph, Number(width));
}

/** Width of a text in units of its font size. */
export function textWidth(text: string): number {
  let thousandths = 0;
  for (const glyph of text) thousandths += widthOfGlyph.get(glyph) ?? COMMON_GLYPH_WIDTH;
  return (thousandths / 1000) * WIDER_FACES;
}

interface TextMetrics {
  width(item: { readonly fontSize?: number }, text: unknown): number;
}

// The type declarations of vega leave this part of it out.
(vega as unknown as { readonly textMetrics: TextMetrics }).textMetrics.width = (item, text) =>
  textWidth(String(text ?? '')) * (item.fontSize ?? 11);

/** Compiles a chart; what vega-lite has to say about it goes to `warn`. */
export function compileChart(spec: ChartSpec, warn: (message: string) => void): vega.Spec {
  const logger = {
    level() {
      return logger;
    },
    error(...messages: readonly unknown[]) {
      warn(messages.map(String).join(' '));
      return logger;
    },
    warn(...messages: readonly unknown[]) {
      warn(messages.map(String).join(' '));
      return logger;
    },
    info() {
      return logger;
    },
    debug() {
      return logger;
    },
  };
  return compile(spec as unknown as TopLevelSpec, { logger: logger as never }).spec as vega.Spec;
}

/**
 * Drops what a page does without: empty backgrounds, names and roles of the drawing library (the whole picture is an
 * image with a single label), values that an SVG has anyway, decimals that no screen shows; neighbours that look the
 * same become a single path.
 */
function slim(svg: string): string {
  return svg
    .replace(/ (?:class|role|aria-[a-z]+|xmlns:xlink|version|pointer-events|font-family)="[^"]*"/g, '')
    .replace(/<path d="(?:M0,0h0v0h0Z)?"(?: display="none")?\/>/g, '')
    .replace(/<rect [^>]*fill="transparent"[^>]*\/>/, '')
    .replace(/ (?:[xy]2="0"|opacity="1"|stroke-width="1"|font-weight="normal"|transform="translate\(0,0\)")/g, '')
    .replace(/="[^"]*"/g, (value) =>
      value.replace(/\d+\.\d{3,}/g, (number) => String(Number(Number(number).toFixed(2)))),
    )
    .replace(/(?:<path d="[^"]*"[^>]*\/>){2,}/g, joinPaths);
}

/** One path in place of several in a row that differ in nothing but where they lie. */
function joinPaths(paths: string): string {
  const joined: { d: string; rest: string }[] = [];
  for (const [, d, rest] of paths.matchAll(/<path d="([^"]*)"([^>]*)\/>/g)) {
    const last = joined.at(-1);
    if (last?.rest === rest && !rest.includes('transform')) last.d += d;
    else joined.push({ d, rest });
  }
  return joined.map(({ d, rest }) => `<path d="${d}"${rest}/>`).join('');
}

export const drawChart: Draw = async (spec, label) => {
  const compiled = compileChart(spec, () => {});
  const view = new vega.View(vega.parse(compiled), { renderer: 'none' });
  const svg = slim(await view.toSVG());
  view.finalize();
  return svg.replace(/^<svg /, `<svg role="img" aria-label="${escapeText(label)}" `);
};
