/** A flight log as a CSV file: time and g-reading, time and barometric height, or all three. */

import { GRAVITY } from '../../model/atmosphere.js';
import { cleanText, quoted } from '../../scenario/problem.js';
import type { Dimension } from '../../scenario/shapes.js';
import { type CsvTable, columnIndex, openCsv, readNumbers } from '../csv.js';
import { type Evidence, found, refuse } from '../evidence.js';
import { readUnit, toSi } from '../unit.js';

export interface FlightLog {
  readonly file: string;
  readonly invented: boolean;
  /** s, as the logger counts; never falling. */
  readonly time: Float64Array;
  /** Size of the specific force in multiples of g; NaN in gaps; null where the log has none. */
  readonly reading: Float64Array | null;
  /** Barometric height, m; NaN in gaps; null where the log has none. */
  readonly height: Float64Array | null;
}

export interface LogColumns {
  /** Names of columns, each with ":unit" behind it where the name does not say it. */
  readonly time: string | null;
  readonly reading: string | null;
  readonly height: string | null;
}

/** Fewer rows are no flight. */
const FEWEST_ROWS = 20;
/** A logger that counts in milliseconds without saying so shows a flight of hours. */
const LONGEST = 4 * 3600;

interface Channel {
  readonly option: string;
  readonly dimension: Dimension;
  readonly usual: string;
  readonly names: RegExp;
}

const TIME: Channel = {
  option: '--time',
  dimension: 'time',
  usual: 's',
  names: /^(t|time|elapsed|timestamp)(?![a-z])/i,
};
const READING: Channel = {
  option: '--reading',
  dimension: 'acceleration',
  usual: 'gee',
  names: /^(g|gee|g_?force|acc|accel|acceleration|magnitude|reading)(?![a-z])/i,
};
const HEIGHT: Channel = {
  option: '--height',
  dimension: 'length',
  usual: 'm',
  names: /^(h|height|alt|altitude|baro|barometric)(?![a-z])/i,
};
const AXES = [/^(a|acc_?|accel_?)x(?![a-z])/i, /^(a|acc_?|accel_?)y(?![a-z])/i, /^(a|acc_?|accel_?)z(?![a-z])/i];

interface Placed {
  readonly place: number;
  readonly scale: (value: number) => number;
}

export function readLog(text: string, file: string, columns: LogColumns): Evidence<FlightLog> {
  const opened = openCsv(text, file);
  if (opened.status === 'refused') return opened;
  const table = opened.value;
  const time = channelOf(table, TIME, columns.time);
  const reading = channelOf(table, READING, columns.reading);
  const height = channelOf(table, HEIGHT, columns.height);
  const axes = columns.reading === null ? AXES.map((names) => channelOf(table, { ...READING, names }, null)) : [];
  const refusals = [time, reading, height].flatMap((one) => (one.status === 'refused' ? one.messages : []));
  if (refusals.length > 0) return refuse(...refusals);
  const [timePlace, readingPlace, heightPlace] = [time, reading, height].map(placedOf);
  const axisPlaces = axes.map(placedOf).filter((one) => one !== null);
  const vector = readingPlace === null && axisPlaces.length === 3 ? axisPlaces : null;
  const names = table.names.map(quoted).join(', ');
  if (timePlace === null)
    return refuse(`${quoted(file)} has no column for the time; its columns are ${names}. Name one with --time.`);
  if (readingPlace === null && heightPlace === null && vector === null)
    return refuse(
      `${quoted(file)} has neither g-reading nor height; its columns are ${names}. Name one with --reading or --height.`,
    );

  const wanted = [
    timePlace,
    ...(readingPlace ? [readingPlace] : []),
    ...(vector ?? []),
    ...(heightPlace ? [heightPlace] : []),
  ];
  const numbers = readNumbers(
    table,
    wanted.map(({ place }) => place),
  );
  if (numbers.status === 'refused') return numbers;
  const si = numbers.value.columns.map((column, index) => column.map(wanted[index].scale));
  const trouble = timeTrouble(si[0], numbers.value.lines, file, timePlace.scale(1));
  if (trouble !== null) return refuse(trouble);
  return found({
    file,
    invented: /\binvented\b/i.test(table.remarks),
    time: si[0],
    reading: readingPlace ? si[1].map(inGee) : vector ? sizeOf(si.slice(1, 4)).map(inGee) : null,
    height: heightPlace ? si[si.length - 1] : null,
  });
}

function inGee(acceleration: number): number {
  return acceleration / GRAVITY;
}

function sizeOf([x, y, z]: readonly Float64Array[]): Float64Array {
  return x.map((one, i) => Math.sqrt(one ** 2 + y[i] ** 2 + z[i] ** 2));
}

function placedOf(one: Evidence<Placed | null>): Placed | null {
  return one.status === 'ok' ? one.value : null;
}

/** The column of a channel: named by the user, or known by its own name. */
function channelOf(
  table: CsvTable,
  { option, dimension, usual, names }: Channel,
  given: string | null,
): Evidence<Placed | null> {
  const colon = given?.lastIndexOf(':') ?? -1;
  const name = given === null ? null : colon > 0 ? given.slice(0, colon) : given;
  const index =
    name === null ? found(table.names.findIndex((one) => names.test(one))) : columnIndex(table, name, option);
  if (index.status === 'refused') return index;
  if (index.value === -1) return found(null);
  const column = table.names[index.value];
  const written = given !== null && colon > 0 ? given.slice(colon + 1) : unitIn(column, names);
  const spelled = UNIT_SPELLINGS[written] ?? (written === '' ? usual : written);
  const unit = readUnit(spelled, dimension, `the unit of column ${quoted(column)}`);
  if (unit.status === 'refused')
    return given !== null && colon > 0
      ? unit
      : refuse(`${unit.messages.join(' ')} Say it with the column, as ${option} "${cleanText(column)}:${usual}".`);
  return found({ place: index.value, scale: (value) => toSi(value, unit.value) });
}

/** In a log "g" is the g-meter's unit, not grams. */
const UNIT_SPELLINGS: Readonly<Record<string, string>> = {
  g: 'gee',
  G: 'gee',
  'm s2': 'm/s^2',
  mss: 'm/s^2',
  'm/s2': 'm/s^2',
  'm per s2': 'm/s^2',
  sec: 's',
  seconds: 's',
  metres: 'm',
  meters: 'm',
  feet: 'ft',
};

/** What stands behind the name in "height_m", "height (ft)" or "acc [m/s^2]", if it can be a unit. */
function unitIn(column: string, names: RegExp): string {
  const rest = column
    .replace(names, '')
    .replace(/[[\]()_]/g, ' ')
    .trim();
  const last = rest.split(/\s{2,}/).at(-1) ?? '';
  return /^(g|G|gee|m|ft|feet|metres|meters|s|sec|seconds|ms|us|min|mss|m s2|m\/s2|m\/s\^2|m\/s²|m per s2|cm|km)$/.test(
    last,
  )
    ? last
    : '';
}

function timeTrouble(time: Float64Array, lines: Uint32Array, file: string, unit: number): string | null {
  if (time.length < FEWEST_ROWS)
    return `${quoted(file)} holds ${time.length} ${time.length === 1 ? 'row' : 'rows'} of readings; a flight needs at least ${FEWEST_ROWS}.`;
  for (let i = 0; i < time.length; i++) {
    if (Number.isNaN(time[i])) return `${file}:${lines[i]}: found no time; expected one in every row.`;
    if (i > 0 && time[i] < time[i - 1])
      return `${file}:${lines[i]}: found the time ${shown(time[i] / unit)} after ${shown(time[i - 1] / unit)}; expected a time that never falls. Two flights in one file, or a clock that was set? Keep one of them.`;
  }
  const span = time[time.length - 1] - time[0];
  if (span <= 0) return `${quoted(file)}: every row has the same time.`;
  if (span > LONGEST)
    return `${quoted(file)} runs over ${shown(span / 3600)} hours: if its time is in milliseconds, say so, as --time "time:ms"; else cut it to the flight.`;
  return null;
}

function shown(value: number): string {
  return String(Number(value.toPrecision(6)));
}
