/** From a saved result of any kind to its page. */
import { type Answer, ok, refused } from '../../../sim/basics/answer.js';

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
    const { parseFit } = await import('../../../sim/fit/json.js');
    const { renderFit } = await import('../../../report/fit/fit.js');
    return rendered(parseFit(text), renderFit);
  },
  reconstruct: async (text) => {
    const { parseReconstruct } = await import('../../../sim/reconstruct/json.js');
    const { renderReconstruct } = await import('../../../report/reconstruct/reconstruct.js');
    return rendered(parseReconstruct(text), renderReconstruct);
  },
  learn: async (text) => {
    const { parseLearn } = await import('../../../sim/learn/json.js');
    const { renderLearn } = await import('../../../report/learn/learn.js');
    return rendered(parseLearn(text), renderLearn);
  },
  trace: async (text) => {
    const { parseTrace } = await import('../../../sim/trace/json.js');
    const { renderTrace } = await import('../../../report/trace/trace.js');
    return rendered(parseTrace(text), renderTrace);
  },
};

export async function renderedPage(text: string): Promise<Answer<string>> {
  const { openResult } = await import('../../../sim/basics/read-result.js');
  const opened = openResult(text);
  if (opened.status === 'refused') return opened;
  const { kind } = opened.value;
  const page = Object.hasOwn(PAGES, kind) ? PAGES[kind] : undefined;
  const kinds = Object.keys(PAGES).join(', ');
  return page === undefined
    ? refused(`the result is of kind "${kind}", which has no page here; the kinds are ${kinds}.`)
    : page(text);
}

async function rendered<R>(read: Answer<R>, render: (result: R) => Promise<string>): Promise<Answer<string>> {
  return read.status === 'ok' ? ok(await render(read.value)) : read;
}
