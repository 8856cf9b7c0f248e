/** The report: one result to one HTML file that needs nothing else. */
import Handlebars from 'handlebars';
import { readAssets } from './assets.js';
import { drawChart } from './charts/draw.js';
import type { ReportedResult } from './decisions.js';
import { paletteStyles } from './palette.js';
import { contentSecurityPolicy } from './policy.js';
import { type ReportView, reportView } from './view.js';
import { cssString, escapeText } from './words/escape.js';

export async function renderReport(result: ReportedResult): Promise<string> {
  return renderPage(await reportView(result, drawChart));
}

function renderPage(view: ReportView): string {
  const style = pageStyle(view);
  const script = readAssets('page', '.js')
    .map(({ text }) => text)
    .join('\n');
  const engine = Handlebars.create();
  for (const { name, text } of readAssets('templates', '.hbs')) engine.registerPartial(name, text);
  engine.registerHelper('breakable', (text: string) => new engine.SafeString(breakable(text)));
  const page = engine.compile('{{> page}}', { strict: true });
  return page({ ...view, style, script, policy: contentSecurityPolicy(style, script) });
}

/** Text for HTML that may be broken after the dots and low lines of a path. */
function breakable(text: string): string {
  return escapeText(text).replace(/[._](?=\w)/g, '$&<wbr>');
}

/**
 * The page's styles, and what each printed sheet says in its margins. Browsers that do not know margin boxes print the
 * page's title there, which says the same.
 */
function pageStyle(view: ReportView): string {
  const files = readAssets('styles', '.css').map(({ text }) => text);
  const type = 'font:8pt system-ui,sans-serif;color:#444;';
  const box = (place: string, content: string) => `@${place}{${type}content:${content}}`;
  const margins = [
    box('top-left', cssString(view.title)),
    box('top-right', cssString(`seed ${view.seed} - scenario ${view.shortHash} - ${view.program}`)),
    box('bottom-left', cssString('An estimate. It does not clear a flight.')),
    box('bottom-right', 'counter(page) " of " counter(pages)'),
  ];
  return [paletteStyles(), ...files, `@page{${margins.join('')}}`].join('\n');
}
