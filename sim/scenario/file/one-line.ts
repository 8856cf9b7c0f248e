/** An input as written in the file, on one line, for tables: "normal, mean 610 g, sd 5 g". */
import { FAMILY_NAMES } from './families.js';
import { cleanText } from './problem.js';
import { entryOf, type Written, type WrittenMap } from './written.js';

/** In words; kind, source and note are left out, as they are shown beside it. */
export function onOneLine(map: WrittenMap): string {
  const value = entryOf(map, 'value')?.value;
  if (value?.form === 'scalar') return cleanText(value.source);
  const failures = entryOf(map, 'failures')?.value;
  const trials = entryOf(map, 'trials')?.value;
  const parts = map.entries.flatMap(({ key, value: part }) => {
    if (key === 'samples') return [samplesInWords(part)];
    if (FAMILY_NAMES.some((name) => name === key) && part.form === 'map') return [key, ...parametersInWords(part)];
    if (key === 'at_least' || key === 'at_most') return [`${key.replace('_', ' ')} ${inWords(part)}`];
    return [];
  });
  if (failures?.form === 'scalar' && trials?.form === 'scalar')
    parts.unshift(`${failures.source} failures in ${trials.source} trials`);
  return parts.join(', ');
}

function parametersInWords(map: WrittenMap): readonly string[] {
  return map.entries.map(({ key, value }) => `${key} ${inWords(value)}`);
}

function inWords(written: Written): string {
  if (written.form === 'scalar') return cleanText(written.source);
  return written.form === 'map' ? `(${onOneLine(written)}; not measured)` : '';
}

function samplesInWords(written: Written): string {
  if (written.form === 'list') return `${written.items.length} measured values`;
  const [file, column] = written.form === 'map' ? ['file', 'column'].map((key) => entryOf(written, key)?.value) : [];
  return file?.form === 'scalar' && column?.form === 'scalar'
    ? `measured values, column ${cleanText(column.source)} of ${cleanText(file.source)}`
    : 'measured values';
}
