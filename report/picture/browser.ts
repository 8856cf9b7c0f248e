/**
 * A Chromium for the tests and for the picture of the README: the one that CHROME names, the one that comes with the
 * development dependencies (Linux x64), or one that is installed.
 */
import { existsSync } from 'node:fs';
import { type Browser, chromium, type LaunchOptions } from 'playwright-core';
import { packedBrowser } from './packed-browser.js';

export type StartedBrowser =
  | { readonly status: 'ok'; readonly browser: Browser }
  /** Every way that was tried, and why it failed. */
  | { readonly status: 'none'; readonly tried: readonly string[] };

/** Whether a browser comes with the development dependencies, so that having none is an error. */
export const COMES_WITH_BROWSER = process.platform === 'linux' && process.arch === 'x64';

interface Way {
  readonly name: string;
  readonly options: () => Promise<LaunchOptions>;
}

/** A browser that has not started by then will not; on a busy machine it may take minutes. */
const PATIENCE = 15 * 60_000;

const INSTALLED = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome', '/snap/bin/chromium'];
const CHANNELS = ['chrome', 'chromium', 'msedge'];

function ways(): readonly Way[] {
  const { CHROME } = process.env;
  if (CHROME) return [{ name: `CHROME=${CHROME}`, options: async () => ({ executablePath: CHROME }) }];
  const installed = INSTALLED.filter((path) => existsSync(path)).map((path) => ({
    name: path,
    options: async () => ({ executablePath: path }),
  }));
  const channels = CHANNELS.map((channel) => ({ name: `installed ${channel}`, options: async () => ({ channel }) }));
  return [...(COMES_WITH_BROWSER ? PACKED : []), ...installed, ...channels];
}

const PACKED: readonly Way[] = [
  {
    name: '@sparticuz/chromium',
    options: async () => {
      const { executablePath, fonts } = await packedBrowser();
      return { executablePath, env: withEnvironment(fonts) };
    },
  },
  {
    name: '@sparticuz/chromium with its own libraries',
    options: async () => {
      const { executablePath, fonts, libraries } = await packedBrowser();
      return { executablePath, env: withEnvironment({ ...fonts, ...libraries }) };
    },
  },
];

function withEnvironment(more: Readonly<Record<string, string>>): Record<string, string> {
  const own = Object.entries(process.env).flatMap(([name, value]) => (value === undefined ? [] : [[name, value]]));
  return { ...Object.fromEntries(own), ...more };
}

/** Starts the first browser that will. */
export async function startBrowser(): Promise<StartedBrowser> {
  // As root, as in a container, Chromium has no sandbox to start in.
  const args = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const tried: string[] = [];
  for (const { name, options } of ways()) {
    try {
      return { status: 'ok', browser: await chromium.launch({ args, timeout: PATIENCE, ...(await options()) }) };
    } catch (error) {
      tried.push(`${name}: ${String(error).split('\n').slice(0, 3).join(' ')}`);
    }
  }
  return { status: 'none', tried };
}
