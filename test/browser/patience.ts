/** A browser on a busy machine takes its time: waiting ends only where nothing will come any more. */
import type { Browser, BrowserContext, BrowserContextOptions } from 'playwright-core';

const PATIENCE = 15 * 60_000;

export async function patientContext(browser: Browser, options: BrowserContextOptions = {}): Promise<BrowserContext> {
  const context = await browser.newContext(options);
  context.setDefaultTimeout(PATIENCE);
  context.setDefaultNavigationTimeout(PATIENCE);
  return context;
}
