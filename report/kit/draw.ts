/** A chart's specification to an SVG that follows the page's colours and fonts. */
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { textWidth } from './glyphs.js';
import { escapeText } from './words/escape.js';

/** A vega-lite specification. The tests hold each one against vega-lite's own JSON Schema, which says more than its types. */
export type ChartSpec = Readonly<Record<string, unknown>>;

/** Draws one chart; `label` says in words what it shows. The tests put in one that looks at the specification. */
export type Draw = (spec: ChartSpec, label: string) => Promise<string>;

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
 * Drops what a page does without: empty backgrounds, names and roles of the drawing library (the whole picture is one
 * image with one label), values that an SVG has anyway, decimals that no screen shows; neighbours that look the same
 * become one path.
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
