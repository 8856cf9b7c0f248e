/** A reconstructed flight for a terminal. */
import type { LogQuantity, QUANTITIES, ReconstructResult } from '../../../sim/reconstruct/result.js';
import { changedLines } from '../../terminal/changed.js';
import { columns, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningLines } from '../../terminal/warnings.js';

export function reconstructSummary(result: ReconstructResult, paint: Paint): readonly string[] {
  const { quantities, events, scenario } = result;
  return [
    paint('bold', `${result.file}: ${result.rows} rows over ${result.duration.toFixed(1)} s, ${result.channels}`),
    ...changedLines(scenario?.changed ?? [], paint),
    ...(result.invented ? ['Invented data.'] : []),
    '',
    ...columns(
      [
        ['', 'value', '90 % range', ...(scenario === null ? [] : ['simulated flights under it'])],
        ...quantities.filter(({ status }) => status === 'known').map((one) => cellsOf(one, scenario !== null)),
      ],
      2,
      [1],
    ),
    '',
    ...quantities
      .filter(({ status }) => status !== 'known')
      .flatMap(({ name, why }) => wrapped(`  ${words(name)}: not identifiable, ${why}`, 4)),
    '',
    ...columns(
      [
        ['time', 'height', 'event'],
        ...events.map(({ name, time, height }) => [
          `${time.toFixed(2)} s`,
          height === null ? '-' : `${height.toFixed(0)} m`,
          name,
        ]),
      ],
      2,
      [0, 1],
    ),
    '',
    ...warningLines(result.warnings, paint),
  ];
}

function words(name: keyof typeof QUANTITIES): string {
  return name.replaceAll('_', ' ');
}

function cellsOf({ name, unit, value, low, high, percentile }: LogQuantity, compared: boolean): readonly string[] {
  const width = ((high ?? 0) - (low ?? 0)) / 2;
  const decimals = Math.min(2, Math.max(0, width > 0 ? 1 - Math.floor(Math.log10(width)) : 1));
  const text = (one: number | null) => (one === null ? '-' : one.toFixed(decimals));
  const shares = percentile?.map((one) => (100 * one).toFixed(0));
  return [
    words(name),
    `${text(value)} ${unit === 'gee' ? 'g' : unit}`,
    `${text(low)} to ${text(high)}`,
    ...(compared ? [shares === undefined ? '-' : `${shares[0]} % (${shares[1]} to ${shares[2]})`] : []),
  ];
}
