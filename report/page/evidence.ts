/** A page about a flight, a log or bench data holds sections of words, figures, tables and text to paste. */
import type { Warning } from '../../sim/basics/warning.js';
import type { Figure } from '../kit/figure.js';
import type { Table } from '../kit/table.js';
import { prose } from '../kit/words/numbers.js';
import { renderPage, reportAssets } from './html.js';

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
  /** What the command line changed in the scenario, if there is one. */
  readonly changed?: string | null;
  readonly program: string;
  readonly sections: readonly EvidenceSection[];
}

export function renderEvidence(page: EvidencePage): string {
  const sections = page.sections.map((section, index) => ({
    heading: { number: index + 1, id: section.id, title: section.title },
    paragraphs: section.paragraphs.map(prose),
    figures: (section.figures ?? []).map((one) => ({ ...one, caption: prose(one.caption) })),
    tables: section.tables ?? [],
    code: section.code ?? null,
    advice: (section.advice ?? []).map(({ text, advice }) => ({ text: prose(text), advice: prose(advice) })),
  }));
  const view = { ...page, sections, first: page.sections[0].id };
  return renderPage('evidence', view, reportAssets(page.title, page.program));
}
