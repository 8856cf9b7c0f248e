/** From a saved result of any kind to its page. */

import { type Answer, ok, refused } from '../../../sim/basics/answer.js';
import type { FitResult } from '../../../sim/fit/result.js';
import type { LearnResult } from '../../../sim/learn/result.js';
import type { ReconstructResult } from '../../../sim/reconstruct/result.js';

type Read<R> = { readonly status: 'ok'; readonly result: R } | { readonly status: 'refused'; readonly message: string };
type Page = (text: string) => Promise<Answer<string>>;

/** What reads and renders each kind; loaded when it is needed. */
const PAGES: Readonly<Record<string, Page>> = {
  assess: async (text) => {
    const { parseResult } = await import('../../../sim/assess/json.js');
    const { assessPage } = await import('../assess/page.js');
    return rendered(parseResult(text), assessPage);
  },
  compare: async (text) => {
    const { parseComparison } = await import('../../../sim/compare/json.js');
    const { renderComparison } = await import('../../../report/compare/compare.js');
    return rendered(parseComparison(text), renderComparison);
  },
  limits: async (text) => {
    const { parseLimits } = await import('../../../sim/limits/json.js');
    const { renderLimits } = await import('../../../report/limits/limits.js');
    return rendered(parseLimits(text), renderLimits);
  },
  fit: async (text) => {
    const { parseEvidence } = await import('../../../sim/learn/evidence-json.js');
    const { renderFit } = await import('../../../report/fit/fit.js');
    return rendered(parseEvidence<FitResult>(text, 'fit'), renderFit);
  },
  reconstruct: async (text) => {
    const { parseEvidence } = await import('../../../sim/learn/evidence-json.js');
    const { renderReconstruct } = await import('../../../report/reconstruct/reconstruct.js');
    return rendered(parseEvidence<ReconstructResult>(text, 'reconstruct'), renderReconstruct);
  },
  learn: async (text) => {
    const { parseEvidence } = await import('../../../sim/learn/evidence-json.js');
    const { renderLearn } = await import('../../../report/learn/learn.js');
    return rendered(parseEvidence<LearnResult>(text, 'learn'), renderLearn);
  },
};

export async function renderedPage(text: string): Promise<Answer<string>> {
  const { openResult } = await import('../../../sim/basics/result-json.js');
  const opened = openResult(text);
  if (opened.status === 'refused') return refused(opened.message);
  const page = Object.hasOwn(PAGES, opened.kind) ? PAGES[opened.kind] : undefined;
  const kinds = Object.keys(PAGES).join(', ');
  return page === undefined
    ? refused(`the result is of kind "${opened.kind}", which has no page here; the kinds are ${kinds}.`)
    : page(text);
}

async function rendered<R>(read: Read<R>, render: (result: R) => Promise<string>): Promise<Answer<string>> {
  return read.status === 'ok' ? ok(await render(read.result)) : refused(read.message);
}
