/** One HTML file needs nothing else: template, styles and scripts are in it, and a policy that allows nothing more. */
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Handlebars from 'handlebars';
import { CAUTION } from '../../sim/basics/caution.js';
import { paletteStyles } from '../kit/palette.js';
import { cssString, escapeText } from '../kit/words/escape.js';

/** Styles and scripts as they stand in a page. */
export interface PageAssets {
  readonly style: string;
  readonly script: string;
}

/** Fills the template of this name with a view; the page's assets and its policy are added to it. */
export function renderPage(template: string, view: object, { style, script }: PageAssets): string {
  const engine = Handlebars.create();
  for (const { name, text } of readFiles('.', '.hbs')) engine.registerPartial(name, text);
  engine.registerHelper('breakable', (text: string) => new engine.SafeString(breakable(text)));
  const page = engine.compile(`{{> ${template}}}`, { strict: true });
  return page({
    changed: null,
    caution: CAUTION,
    ...view,
    style,
    script,
    policy: contentSecurityPolicy(style, script),
  });
}

/**
 * The styles and scripts of every report, and what each printed sheet says in its upper margin at the left and at the
 * right. Browsers that do not know margin boxes print the page's title there, which says the same.
 */
export function reportAssets(left: string, right: string): PageAssets {
  const type = 'font:8pt system-ui,sans-serif;color:#444;';
  const box = (place: string, content: string) => `@${place}{${type}content:${content}}`;
  const margins = [
    box('top-left', cssString(left)),
    box('top-right', cssString(right)),
    box('bottom-left', cssString('An estimate. It does not clear a flight.')),
    box('bottom-right', 'counter(page) " of " counter(pages)'),
  ];
  return {
    style: [paletteStyles(), textsOf('page/styles', '.css'), `@page{${margins.join('')}}`].join('\n'),
    script: textsOf('page/script', '.js'),
  };
}

/** A sheet of paper shares no style with the reports: it has the styles of its own room, and no script. */
export function sheetAssets(room: string): PageAssets {
  return { style: textsOf(room, '.css'), script: '' };
}

function textsOf(folder: string, ending: string): string {
  return readFiles(folder, ending)
    .map(({ text }) => text)
    .join('\n');
}

/** The files under a folder of the report with this ending, at any depth, in the order of their paths. Names must differ. */
function readFiles(folder: string, ending: string): readonly { readonly name: string; readonly text: string }[] {
  const home = join(reportFolder(dirname(fileURLToPath(import.meta.url))), folder);
  return readdirSync(home, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith(ending))
    .sort()
    .map((file) => ({ name: basename(file, ending), text: readFileSync(join(home, file), 'utf8') }));
}

/** The nearest `report/` above this file that holds templates, whether this runs as source, compiled or bundled. */
function reportFolder(from: string): string {
  const report = join(from, 'report');
  if (existsSync(join(report, 'page', 'templates'))) return report;
  if (dirname(from) === from) throw new Error('The templates of the report are missing.');
  return reportFolder(dirname(from));
}

/** A content security policy under which the page may use its own style and script and nothing else at all. */
function contentSecurityPolicy(style: string, script: string): string {
  return [
    "default-src 'none'",
    `style-src ${hashSource(style)}`,
    `script-src ${hashSource(script)}`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

function hashSource(text: string): string {
  return `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;
}

/** Text for HTML that may be broken after the dots and low lines of a path. */
function breakable(text: string): string {
  return escapeText(text).replace(/[._](?=\w)/g, '$&<wbr>');
}
