/**
 * The page has all its colours from here. Outcomes differ in lightness by far more than in hue, so that they stay apart in
 * grey and with any colour vision; the worse an outcome, the stronger it stands out from the paper.
 */
export const LIGHT = {
  paper: '#fbfaf6',
  raised: '#f2f0e8',
  ink: '#1c2530',
  quiet: '#535d69',
  line: '#d3d0c5',
  edge: '#7d8186',
  accent: '#2b4f7c',
  'accent-tint': '#e0e6ee',
  soft: '#b7d2df',
  'soft-edge': '#55798d',
  hard: '#d08114',
  'hard-edge': '#8a5206',
  crash: '#6b1530',
  'crash-edge': '#6b1530',
  numerical: '#8b9097',
  'numerical-edge': '#4c5157',
  notice: '#fbe9b7',
  'notice-ink': '#3d2c00',
} as const;

export type ColourName = keyof typeof LIGHT;

export const DARK: Readonly<Record<ColourName, string>> = {
  paper: '#14191f',
  raised: '#1d242c',
  ink: '#e9e6de',
  quiet: '#a9b2bc',
  line: '#38414c',
  edge: '#808a95',
  accent: '#8fb6e0',
  'accent-tint': '#1d2f45',
  soft: '#34576b',
  'soft-edge': '#7fa7bd',
  hard: '#d98b2b',
  'hard-edge': '#f0b566',
  crash: '#ffc6d3',
  'crash-edge': '#ffc6d3',
  numerical: '#6c747d',
  'numerical-edge': '#b9c0c7',
  notice: '#453710',
  'notice-ink': '#fbe9b7',
};

/** The CSS variable of a colour, for styles and for charts alike. */
export function colour(name: ColourName): string {
  return `var(--${name})`;
}

function declarations(palette: Readonly<Record<ColourName, string>>): string {
  return Object.entries(palette)
    .map(([name, value]) => `--${name}:${value};`)
    .join('');
}

/** Light by default, dark where the reader's system or the page's button asks for it, light again on paper. */
export function paletteStyles(): string {
  const light = declarations(LIGHT);
  const dark = declarations(DARK);
  return [
    `:root{color-scheme:light;${light}}`,
    `@media screen and (prefers-color-scheme:dark){:root:not([data-theme="light"]){color-scheme:dark;${dark}}}`,
    `@media screen{:root[data-theme="dark"]{color-scheme:dark;${dark}}}`,
  ].join('\n');
}
