/** A page about bench data or flight logs: sections of words, figures, tables and text to paste, in one HTML file. */
import Handlebars from 'handlebars';
import type { Warning } from '../../sim/result/result.js';
import { readAssets } from '../assets.js';
import { paletteStyles } from '../palette.js';
import { contentSecurityPolicy } from '../policy.js';
import type { Figure, Table } from '../table.js';
import { cssString, escapeText } from '../words/escape.js';
import { prose } from '../words/numbers.js';

export interface EvidenceSection {
  readonly id: string;
  readonly title: string;
  readonly paragraphs: readonly string[];
  readonly figures?: readonly Figure[];
  readonly tables?: readonly Table[];
  /** Text to paste. */
  readonly code?: string;
  readonly advice?: readonly Warning[];
}

export interface EvidencePage {
  readonly title: string;
  /** What kind of page it is, above the title. */
  readonly kind: string;
  readonly origin: string;
  readonly notice: string | null;
  readonly program: string;
  readonly sections: readonly EvidenceSection[];
}

export function renderEvidence(page: EvidencePage): string {
  const style = pageStyle(page);
  const script = readAssets('page', '.js')
    .map(({ text }) => text)
    .join('\n');
  const engine = Handlebars.create();
  for (const { name, text } of readAssets('templates', '.hbs')) engine.registerPartial(name, text);
  engine.registerHelper('breakable', (text: string) => new engine.SafeString(breakable(text)));
  const sections = page.sections.map((section, index) => ({
    heading: { number: index + 1, id: section.id, title: section.title },
    paragraphs: section.paragraphs.map(prose),
    figures: section.figures ?? [],
    tables: section.tables ?? [],
    code: section.code ?? null,
    advice: (section.advice ?? []).map(({ text, advice }) => ({ text: prose(text), advice: prose(advice) })),
  }));
  const view = { ...page, sections, first: page.sections[0].id, style, script };
  return engine.compile('{{> evidence}}', { strict: true })({ ...view, policy: contentSecurityPolicy(style, script) });
}

/** Text for HTML that may be broken after the dots and low lines of a path. */
function breakable(text: string): string {
  return escapeText(text).replace(/[._](?=\w)/g, '$&<wbr>');
}

function pageStyle(page: EvidencePage): string {
  const type = 'font:8pt system-ui,sans-serif;color:#444;';
  const box = (place: string, content: string) => `@${place}{${type}content:${content}}`;
  const margins = [
    box('top-left', cssString(page.title)),
    box('top-right', cssString(page.program)),
    box('bottom-left', cssString('An estimate. It does not clear a flight.')),
    box('bottom-right', 'counter(page) " of " counter(pages)'),
  ];
  const files = readAssets('styles', '.css').map(({ text }) => text);
  return [paletteStyles(), ...files, `@page{${margins.join('')}}`].join('\n');
}
