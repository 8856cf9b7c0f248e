/** Functions that run inside the page, where nothing of this side is known but what is handed over. */
import type { AxeResults } from 'axe-core';

interface PageElement {
  readonly dataset: Readonly<Record<string, string | undefined>>;
  readonly textContent: string | null;
  readonly outerHTML: string;
  open: boolean;
  checkVisibility(): boolean;
  closest(selector: string): PageElement | null;
  readonly clientWidth: number;
  readonly scrollWidth: number;
  matches(selector: string): boolean;
  querySelector(selector: string): PageElement | null;
  querySelectorAll(selector: string): Iterable<PageElement>;
  getBoundingClientRect(): { readonly right: number; readonly height: number };
}

interface PageStyle {
  readonly backgroundColor: string;
  readonly breakInside: string;
  readonly outlineStyle: string;
}

declare const document: {
  readonly documentElement: { readonly scrollWidth: number };
  readonly body: PageElement;
  readonly activeElement: PageElement | null;
  querySelectorAll(selector: string): Iterable<PageElement>;
};
declare const innerWidth: number;
declare function getComputedStyle(element: PageElement): PageStyle;
declare function getSelection(): object;
/** Put into the page before. */
declare const axe: { run(): Promise<AxeResults> };
declare const navigator: { readonly clipboard: { readText(): Promise<string> } };

export function shownPanels(panels: readonly PageElement[]): readonly (string | undefined)[] {
  return panels.filter((panel) => panel.checkVisibility()).map((panel) => panel.dataset.height);
}

export function openAll(details: readonly PageElement[]): void {
  for (const one of details) one.open = true;
}

/** Width of the page, and what reaches beyond the window. */
export function sideways(parts: readonly PageElement[]) {
  const beyond = parts.filter((one) => one.getBoundingClientRect().right > innerWidth + 1);
  return {
    width: document.documentElement.scrollWidth,
    beyond: beyond.map(({ outerHTML }) => outerHTML.slice(0, 100)),
  };
}

/** What is cut off or reaches beyond the sheet. */
export function widerThanPaper(parts: readonly PageElement[]): readonly string[] {
  return parts
    .filter((one) => one.checkVisibility())
    .filter((one) => one.scrollWidth > one.clientWidth + 1 || one.getBoundingClientRect().right > innerWidth + 1)
    .map(({ outerHTML }) => outerHTML.slice(0, 100));
}

export function selected(): string {
  return String(getSelection());
}

export function copied(): Promise<string> {
  return navigator.clipboard.readText();
}

export function ground(): string {
  return getComputedStyle(document.body).backgroundColor;
}

/** Which element has the focus, by its place in the page, and whether that can be seen. */
export function focus(): { readonly place: number; readonly marked: boolean } | null {
  const { activeElement: one, body } = document;
  if (one === null || one === body) return null;
  return {
    place: [...document.querySelectorAll('*')].indexOf(one),
    marked: getComputedStyle(one).outlineStyle !== 'none',
  };
}

export function countReachable(all: readonly PageElement[]): number {
  return all.filter((one) => one.checkVisibility()).length;
}

export function heightsAndBreaks(all: readonly PageElement[]) {
  return all
    .filter((one) => one.checkVisibility())
    .map((one) => ({ height: one.getBoundingClientRect().height, rule: getComputedStyle(one).breakInside }));
}

/** Caption of each figure that is shown, and the last words in it. */
export function firstAndLastWords(figures: readonly PageElement[]) {
  return figures
    .filter((one) => one.checkVisibility())
    .map((one) => ({
      caption: one.querySelector('figcaption')?.textContent ?? '',
      last: [...one.querySelectorAll('.legend li, .wide svg text')].at(-1)?.textContent ?? '',
    }));
}

export function captionsInside(details: readonly PageElement[]): readonly string[] {
  return details
    .filter((one) => one.closest('[hidden]') === null)
    .map((one) => one.querySelector('caption')?.textContent ?? '');
}

/** Every rule of axe, none switched off. */
export function rules(): Promise<AxeResults> {
  return axe.run();
}
