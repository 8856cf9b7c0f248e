/** A traced flight for a terminal: what became of it, its events, and what was drawn farthest out. */
import { drawnPercentile, drawnValue, farOut, farOutSentence, happening } from '../../../report/trace/drawn.js';
import type { ColumnName } from '../../../sim/flight/record.js';
import type { DrawnNumber, TraceResult } from '../../../sim/trace/result.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, plainSigns, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningSection } from '../../terminal/warnings.js';

/** Numbers far out that are shown. */
const SHOWN = 6;

export function traceSummary(
  { id, outcome, cause, record, events, drawn, scenario, warnings }: TraceResult,
  paint: Paint,
): readonly string[] {
  const value = (name: ColumnName) => Math.fround(record[name] ?? Number.NaN);
  const shown = cause === 'none' || cause === 'not sought' ? '' : ` (${cause})`;
  const energyLeft = value('energy_left');
  return [
    `Flight ${id}: ${outcome}${shown}`,
    ...changedLines(scenario.changed, paint),
    ...columns([
      ['touchdown speed', metres(value('touchdown_speed'), 'm/s')],
      ['  vertical', metres(value('vertical_speed'), 'm/s')],
      ['  horizontal', metres(value('horizontal_speed'), 'm/s')],
      ['from the landing point', metres(Math.sqrt(value('east') ** 2 + value('north') ** 2), 'm')],
      ['charge left', Number.isNaN(energyLeft) ? '-' : `${(100 * energyLeft).toFixed(0)} %`],
    ]),
    '',
    ...columns(
      [
        ['time', 'height', 'event'],
        ...events.map((event) => [metres(event.time, 's'), metres(event.height ?? Number.NaN, 'm'), event.name]),
      ],
      2,
      [0, 1],
    ),
    '',
    ...drawnLines(drawn),
    ...warningSection(warnings, paint),
  ];
}

function drawnLines(drawn: readonly DrawnNumber[]): readonly string[] {
  if (drawn.length === 0) return [];
  const rows = [
    ...happening(drawn).map((one) => [one.name, drawnValue(one)]),
    ...farOut(drawn)
      .slice(0, SHOWN)
      .map((one) => [one.name, inUnit(one), drawnPercentile(one)]),
  ].map((row) => row.map(plainSigns));
  const head = ['drawn', 'value', 'share of its law under it'];
  return [...wrapped(farOutSentence(drawn)), ...(rows.length === 0 ? [] : columns([head, ...rows])), ''];
}

/** With the unit as a scenario file has it. */
function inUnit({ shown, unit }: DrawnNumber): string {
  return `${Number((shown ?? Number.NaN).toPrecision(3))} ${unit}`.trim();
}

function metres(value: number, unit: string): string {
  const shown = value.toFixed(2);
  return Number.isNaN(value) ? '-' : `${shown === '-0.00' ? '0.00' : shown} ${unit}`;
}
