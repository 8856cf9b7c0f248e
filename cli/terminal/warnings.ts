/** Warnings for a terminal, each with its advice. */
import type { Warning } from '../../sim/basics/warning.js';
import { HAZARDS } from '../../sim/scenario/hazards.js';
import { labelled } from './layout.js';
import type { Paint } from './streams.js';

type Said = Pick<Warning, 'text' | 'advice'>;

/** The warnings, with an empty line after each. */
export function warningLines(warnings: readonly Said[], paint: Paint): readonly string[] {
  return warnings.flatMap((warning) => [...warningText(warning, paint), '']);
}

/** The warnings under a title of their own; nothing where there are no warnings. */
export function warningSection(warnings: readonly Said[], paint: Paint): readonly string[] {
  if (warnings.length === 0) return [];
  return [paint('bold', 'Warnings'), ...warningTexts(warnings, paint), ''];
}

/** The warnings one after the other, with no line between. */
export function warningTexts(warnings: readonly Said[], paint: Paint): readonly string[] {
  return warnings.flatMap((warning) => warningText(warning, paint));
}

/** The hazards to people alone: said even where little is. */
export function hazardLines(warnings: readonly Warning[], paint: Paint): readonly string[] {
  return warnings.filter(({ code }) => HAZARDS.includes(code)).flatMap((warning) => warningText(warning, paint));
}

function warningText({ text, advice }: Said, paint: Paint): readonly string[] {
  return [...labelled('  !', text, 4).map((line) => paint('yellow', line)), ...labelled('', advice, 4)];
}
