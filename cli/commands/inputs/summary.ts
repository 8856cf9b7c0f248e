/** The guide to inputs for a terminal: each in full where a word was asked for, else each in short. */
import type { GuideEntry } from '../../../sim/scenario/input-guide.js';
import { paragraph } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';

export function inputsSummary(entries: readonly GuideEntry[], word: string, paint: Paint): readonly string[] {
  if (word !== '') return entries.flatMap((entry, index) => [...(index === 0 ? [] : ['']), ...inFull(entry, paint)]);
  return [
    ...entries.flatMap((entry) => [title(entry, paint), ...paragraph(entry.meaning, 4)]),
    '',
    ...paragraph('In full, with how it is measured and what is usual: fallmargin inputs WORD, such as drag.', 0),
  ];
}

function inFull(entry: GuideEntry, paint: Paint): readonly string[] {
  const { meaning, range, measured, usual, inStarter } = entry;
  return [
    title(entry, paint),
    ...paragraph(meaning, 4),
    ...said('What may stand there: ', `${range}.`),
    ...said('Without it: ', withoutIt(entry)),
    ...said('How to measure it: ', measured),
    ...said('What is usual: ', usual),
    ...said('The starter file has, invented: ', inStarter),
  ];
}

function title({ path, unit }: GuideEntry, paint: Paint): string {
  return `${paint('bold', path)}${unit === null || unit === '' ? '' : ` [${unit}]`}`;
}

function said(label: string, text: string | null): readonly string[] {
  return text === null || text === '' ? [] : paragraph(`${label}${text}`, 4, 2);
}

function withoutIt({ mustBeGiven, standard }: GuideEntry): string {
  if (standard !== null) return `${standard}.`;
  return mustBeGiven ? 'the file is refused.' : 'it is left out, or the model derives it.';
}
