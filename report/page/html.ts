/** One HTML file that needs nothing else: templates, styles, page scripts, and a policy that allows nothing more. */
import Handlebars from 'handlebars';
import { paletteStyles } from '../kit/palette.js';
import { cssString, escapeText } from '../kit/words/escape.js';
import { readAssets } from './assets.js';
import { contentSecurityPolicy } from './policy.js';

/** Fills the template of this name; `style` and `policy`, and `script` where the page has one, are added to its view. */
export function renderHtml(template: string, view: object, style: string, script = ''): string {
  const engine = Handlebars.create();
  for (const { name, text } of readAssets('.', '.hbs')) engine.registerPartial(name, text);
  engine.registerHelper('breakable', (text: string) => new engine.SafeString(breakable(text)));
  const page = engine.compile(`{{> ${template}}}`, { strict: true });
  return page({ ...view, style, script, policy: contentSecurityPolicy(style, script) });
}

/** The scripts of every page of a report. */
export function pageScript(): string {
  return readAssets('page/script', '.js')
    .map(({ text }) => text)
    .join('\n');
}

/**
 * The styles of a report, and what each printed sheet says in its upper margin. Browsers that do not know margin boxes
 * print the page's title there, which says the same.
 */
export function pageStyle(left: string, right: string): string {
  const files = readAssets('page/styles', '.css').map(({ text }) => text);
  const type = 'font:8pt system-ui,sans-serif;color:#444;';
  const box = (place: string, content: string) => `@${place}{${type}content:${content}}`;
  const margins = [
    box('top-left', cssString(left)),
    box('top-right', cssString(right)),
    box('bottom-left', cssString('An estimate. It does not clear a flight.')),
    box('bottom-right', 'counter(page) " of " counter(pages)'),
  ];
  return [paletteStyles(), ...files, `@page{${margins.join('')}}`].join('\n');
}

/** Text for HTML that may be broken after the dots and low lines of a path. */
function breakable(text: string): string {
  return escapeText(text).replace(/[._](?=\w)/g, '$&<wbr>');
}
