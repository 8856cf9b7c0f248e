/** What was drawn for one flight stands in a table, the numbers farthest out in their own laws first. */
import type { DrawnNumber, TraceResult } from '../../sim/trace/result.js';
import { cell, type Table, table } from '../kit/table.js';
import { inputName } from '../kit/words/inputs.js';
import { countText, numberText, percentLimit, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import type { EvidenceSection } from '../page/evidence.js';

/** A number counts as far out with less than this share of its own law beyond it. */
const FAR_OUT = 0.05;

/** Numbers with a law of their own: neither events nor the luck of a direction, of which no value is far out. */
function lawful(drawn: readonly DrawnNumber[]): readonly DrawnNumber[] {
  return drawn.filter(({ part }) => part === 'value' || part === 'parameter');
}

/** The numbers far out in their own laws, the farthest first. */
export function farOut(drawn: readonly DrawnNumber[]): readonly DrawnNumber[] {
  return byTail(lawful(drawn)).filter((one) => tail(one) < FAR_OUT);
}

/** The events that happen. */
export function happening(drawn: readonly DrawnNumber[]): readonly DrawnNumber[] {
  return drawn.filter(({ part, value }) => part === 'event' && value === true);
}

function byTail(numbers: readonly DrawnNumber[]): readonly DrawnNumber[] {
  return [...numbers].sort((a, b) => tail(a) - tail(b));
}

/** Share of its law beyond it, at the nearer end. */
function tail({ quantile }: DrawnNumber): number {
  return Math.min(quantile, 1 - quantile);
}

/** "About as many as chance alone gives" needs both numbers. */
export function farOutSentence(drawn: readonly DrawnNumber[]): string {
  const all = lawful(drawn).length;
  const far = farOut(drawn).length;
  return `Of ${countText(all)} numbers drawn, ${far === 0 ? 'none lies' : far === 1 ? 'one lies' : `${countText(far)} lie`} outside the middle nine tenths of ${far > 1 ? 'their own laws' : 'its own law'}; chance alone puts about ${countText(2 * FAR_OUT * all)} there.`;
}

/** "12.3 m/s"; of an event whether it happens, with its chance. */
export function drawnValue({ part, value, shown, unit, chance }: DrawnNumber): string {
  if (part === 'luck') return numberText(Number(value));
  if (shown !== null) return withUnit(numberText(shown), unit);
  const odds = chance === null ? '' : ` (chance ${percentLimit(Number(chance.toPrecision(3)))})`;
  return `${value === true ? 'happens' : 'does not happen'}${odds}`;
}

/** Percent of its own law at or under the number, with a digit that tells how far out it is. */
export function drawnPercentile({ quantile }: DrawnNumber): string {
  const percent = 100 * Math.min(quantile, 1 - quantile);
  if (percent < 1e-4) return withUnit(quantile < 0.5 ? 'under 0.0001' : 'over 99.9999', '%');
  const decimals = percent >= 10 ? 0 : percent >= 1 ? 1 : 1 - Math.floor(Math.log10(percent));
  return withUnit((100 * quantile).toFixed(Math.min(4, decimals)), '%');
}

export function drawnSection({ drawn }: TraceResult): EvidenceSection {
  const opening =
    drawn.length === 0
      ? ['Nothing was drawn: every input stands at the median of its law, and the air is without gusts.']
      : [
          `${farOutSentence(drawn)} They stand first and are marked. Far out is not yet to blame: a cause is found by flying again with one input after another at its median.`,
          'Noise, such as gusts, is drawn besides, on the clock of the flight; the JSON file beside this page has all of it.',
        ];
  return {
    id: 'drawn',
    title: 'What was drawn',
    paragraphs: opening,
    tables: drawn.length === 0 ? [] : [drawnTable(drawn)],
  };
}

function drawnTable(drawn: readonly DrawnNumber[]): Table {
  const happens = happening(drawn);
  const others = drawn.filter((one) => !happens.includes(one) && (one.part === 'event' || one.part === 'luck'));
  const rows = [...happens, ...byTail(lawful(drawn)), ...others];
  return table(
    'Every number that this flight drew, with the share of its own law that lies at or under it.',
    ['Input', '#Value', '#Under it', 'Kind'],
    rows.map((one) => [
      capitalised(inputName(isChance(one, drawn) ? `${one.name}#chance` : one.name)),
      { ...marked(drawnValue(one), happens.includes(one)), numeric: true },
      one.part === 'event' || one.part === 'luck'
        ? '-'
        : { ...marked(drawnPercentile(one), tail(one) < FAR_OUT), numeric: true },
      kindOf(one),
    ]),
  );
}

/** Whether a number is the chance of an event, not measured itself. */
function isChance({ part, path }: DrawnNumber, drawn: readonly DrawnNumber[]): boolean {
  return part === 'value' && drawn.some((one) => one.part === 'event' && one.path === path);
}

/** Marked as what nobody vouches for is: to be looked at. */
function marked(text: string, isMarked: boolean) {
  return cell(text, isMarked ? 'guess' : null);
}

function kindOf({ part, kind }: DrawnNumber): string {
  if (part === 'event' || part === 'luck') return part;
  return kind === 'fixed but not measured' ? 'not\u00a0measured' : 'varies';
}
