/** A traced flight for a terminal: what became of it, and its events. */
import { CAUSES, COLUMN_NAMES, type ColumnName, OUTCOMES } from '../../../sim/flight/record.js';
import type { TracedFlight } from '../../../sim/trace/trace-flight.js';
import { columns } from '../../terminal/layout.js';

export function traceSummary({ id, trace }: TracedFlight): readonly string[] {
  const { record, events } = trace;
  const value = (name: ColumnName) => Math.fround(record.values[COLUMN_NAMES.indexOf(name)]);
  const cause = CAUSES[record.cause];
  const shown = cause === 'none' || cause === 'not sought' ? '' : ` (${cause})`;
  const energyLeft = value('energy_left');
  return [
    `Flight ${id}: ${OUTCOMES[record.outcome]}${shown}`,
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
        ...events.map((event) => [metres(event.time, 's'), metres(event.height, 'm'), event.name]),
      ],
      2,
      [0, 1],
    ),
    '',
  ];
}

function metres(value: number, unit: string): string {
  const shown = value.toFixed(2);
  return Number.isNaN(value) ? '-' : `${shown === '-0.00' ? '0.00' : shown} ${unit}`;
}
