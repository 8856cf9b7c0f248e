/** Foreign text is escaped for the places of a page in which it stands. */
const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as it may stand in HTML, in an element or in a quoted attribute. */
export function escapeText(text: string): string {
  return text.replace(/[&<>"']/g, (character) => ENTITIES[character]);
}

/** Text as a CSS string: every character that is not a plain letter, digit or space by its number. */
export function cssString(text: string): string {
  const escaped = [...text].map((character) =>
    /[A-Za-z0-9 ]/.test(character) ? character : `\\${(character.codePointAt(0) ?? 0).toString(16)} `,
  );
  return `"${escaped.join('')}"`;
}
