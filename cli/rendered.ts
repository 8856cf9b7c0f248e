/** From a saved result of any kind to its page. */
import type { FitResult, LearnResult, ReconstructResult } from '../sim/result/evidence.js';
import { ok, type Parsed, refused } from './parsed.js';

type Read<R> = { readonly status: 'ok'; readonly result: R } | { readonly status: 'refused'; readonly message: string };
type Page = (text: string) => Promise<Parsed<string>>;

/** What reads and renders each kind; loaded when it is needed. */
const PAGES: Readonly<Record<string, Page>> = {
  assess: async (text) => {
    const { parseResult } = await import('../sim/result/json.js');
    const { assessPage } = await import('./assess-page.js');
    return rendered(parseResult(text), assessPage);
  },
  compare: async (text) => {
    const { parseComparison } = await import('../sim/result/compare-json.js');
    const { renderComparison } = await import('../report/compare/render.js');
    return rendered(parseComparison(text), renderComparison);
  },
  limits: async (text) => {
    const { parseDayCard } = await import('../sim/result/day-card-json.js');
    const { renderDayCard } = await import('../report/card/render.js');
    return rendered(parseDayCard(text), renderDayCard);
  },
  fit: async (text) => {
    const { parseEvidence } = await import('../sim/result/evidence-json.js');
    const { renderFit } = await import('../report/evidence/fit.js');
    return rendered(parseEvidence<FitResult>(text, 'fit'), renderFit);
  },
  reconstruct: async (text) => {
    const { parseEvidence } = await import('../sim/result/evidence-json.js');
    const { renderReconstruct } = await import('../report/evidence/reconstruct.js');
    return rendered(parseEvidence<ReconstructResult>(text, 'reconstruct'), renderReconstruct);
  },
  learn: async (text) => {
    const { parseEvidence } = await import('../sim/result/evidence-json.js');
    const { renderLearn } = await import('../report/evidence/learn.js');
    return rendered(parseEvidence<LearnResult>(text, 'learn'), renderLearn);
  },
};

export async function renderedPage(text: string): Promise<Parsed<string>> {
  const { openResult } = await import('../sim/result/json.js');
  const opened = openResult(text);
  if (opened.status === 'refused') return refused(opened.message);
  const page = Object.hasOwn(PAGES, opened.kind) ? PAGES[opened.kind] : undefined;
  const kinds = Object.keys(PAGES).join(', ');
  return page === undefined
    ? refused(`the result is of kind "${opened.kind}", which has no page here; the kinds are ${kinds}.`)
    : page(text);
}

async function rendered<R>(read: Read<R>, render: (result: R) => Promise<string>): Promise<Parsed<string>> {
  return read.status === 'ok' ? ok(await render(read.result)) : refused(read.message);
}
