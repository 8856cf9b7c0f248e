/** Fits the inputs of the rotors and the pack to a thrust-stand table, with what the fit leaves unexplained. */

import { type Answer, ok, refused } from '../basics/answer.js';
import { presentVersions } from '../basics/versions.js';
import type { Warning } from '../basics/warning.js';
import type { InputPath } from '../scenario/definition/paths.js';
import { openCsv } from '../scenario/file/csv-columns.js';
import { atPath, blockLevels, figure, type Piece, yamlText } from '../scenario/file/fragment.js';
import { UNMEASURED } from '../scenario/file/kind.js';
import { quoted } from '../scenario/file/problem.js';
import type { Entry } from '../scenario/file/write-into.js';
import { mean, meanWithError, straightLine, widened } from './least-squares.js';
import type { Measured, Residual, ThrustStandFit } from './result.js';
import { FULL, type Row, readRows } from './thrust-table.js';

/** Voltages at full throttle must differ by this share before an exponent can be told. */
const LEAST_VOLTAGE_RANGE = 0.05;

export interface ThrustStandOptions {
  /** Number of rotors that ran at once; thrust and current are divided by it. */
  readonly rotors: number;
  /** Air density during the measurement, kg/m3; null where not known. */
  readonly density: number | null;
}

export interface ThrustStand {
  readonly result: ThrustStandFit;
  readonly entries: readonly Entry[];
}

export function fitThrustStand(text: string, file: string, options: ThrustStandOptions): Answer<ThrustStand> {
  const table = openCsv(text, file);
  if (table.status === 'refused') return table;
  const read = readRows(table.value);
  if (read.status === 'refused') return read;
  const rows = read.value;
  const full = rows.filter(({ throttle }) => throttle >= FULL);
  if (full.length === 0)
    return refused(
      `${quoted(file)} has no row at full throttle (98.5 % or more); the model rests on full throttle: add one.`,
    );

  const voltage = mean(full.map((row) => row.voltage));
  const exponent = exponentOf(full);
  const power = exponent?.value.value ?? STANDARD_EXPONENT;
  const thrust = meanWithError(full.map((row) => (row.thrust / options.rotors) * (voltage / row.voltage) ** power));
  const fullPower = meanWithError(
    full.map((row) => ((row.voltage * row.current) / options.rotors) * (voltage / row.voltage) ** 3),
  );
  const partThrottle = rows
    .filter((row) => row.throttle < FULL && row.thrust > 0)
    .map((row) => {
      const ratio = row.thrust / options.rotors / thrust.value;
      const fitted = fullPower.value * ratio ** 1.5;
      return { line: row.line, x: ratio, measured: (row.voltage * row.current) / options.rotors, fitted };
    });
  const pack = packOf(rows);
  const invented = /\binvented\b/i.test(table.value.remarks);
  const measured = { full: { rows: full.length, thrust, power: fullPower, voltage }, pack, exponent };
  const entries = entriesOf(measured, file, options, invented);
  const result: ThrustStandFit = {
    kind: 'fit',
    form: 'thrust stand',
    versions: presentVersions(),
    file,
    rows: rows.length,
    rotors: options.rotors,
    ...measured,
    partThrottle,
    fragment: entriesText(entries),
    warnings: warningsOf(measured, rows, partThrottle, options),
  };
  return ok({ result, entries });
}

const STANDARD_EXPONENT = 2;

/**
 * What the pack and its leads take of the voltage: V = E - R I. The pack runs down from sweep to sweep, so each sweep
 * (throttle rising from row to row) has an E of its own and all sweeps share one R, by least squares within the sweeps.
 * Null where the current hardly changes within any sweep, or where the voltage does not fall with the current.
 */
function packOf(rows: readonly Row[]): ThrustStandFit['pack'] {
  const sweeps = sweepsOf(rows);
  const centred = sweeps.flatMap((sweep) => {
    const [current, voltage] = [mean(sweep.map((row) => row.current)), mean(sweep.map((row) => row.voltage))];
    return sweep.map((row) => ({ row, x: row.current - current, y: row.voltage - voltage, current, voltage }));
  });
  const squares = centred.reduce((sum, { x }) => sum + x ** 2, 0);
  if (Math.sqrt(squares / rows.length) < 0.3) return null;
  const slope = centred.reduce((sum, { x, y }) => sum + x * y, 0) / squares;
  if (!(slope < 0)) return null;
  const freedom = rows.length - sweeps.length - 1;
  const rest = centred.reduce((sum, { x, y }) => sum + (y - slope * x) ** 2, 0);
  const error = freedom < 1 ? null : widened(Math.sqrt(rest / freedom / squares), freedom);
  const open = mean(sweeps.map((sweep) => mean(sweep.map((row) => row.voltage - slope * row.current))));
  return {
    openCircuit: { value: open, error: null },
    resistance: { value: -slope, error },
    residuals: centred.map(({ row, x, voltage }) => ({
      line: row.line,
      x: row.current,
      measured: row.voltage,
      fitted: voltage + slope * x,
    })),
  };
}

/** Sweeps: stretches of rows in which the throttle rises, or stretches in which it falls where the table goes down. */
function sweepsOf(rows: readonly Row[]): readonly (readonly Row[])[] {
  const sweeps: Row[][] = [];
  let direction = 0;
  for (const row of rows) {
    const last = sweeps.at(-1)?.at(-1);
    const step = last === undefined ? 0 : Math.sign(row.throttle - last.throttle);
    if (last === undefined || (step !== 0 && direction !== 0 && step !== direction)) {
      sweeps.push([row]);
      direction = 0;
    } else {
      sweeps.at(-1)?.push(row);
      if (step !== 0) direction = step;
    }
  }
  return sweeps;
}

/** T ~ V^k at full throttle: a straight line through the logarithms. */
function exponentOf(full: readonly Row[]): ThrustStandFit['exponent'] {
  const voltages = full.map((row) => row.voltage);
  if (full.length < 3 || Math.max(...voltages) < (1 + LEAST_VOLTAGE_RANGE) * Math.min(...voltages)) return null;
  const { slope, intercept } = straightLine(
    voltages.map(Math.log),
    full.map((row) => Math.log(row.thrust)),
  );
  const residuals = full.map(({ line, voltage, thrust }) => ({
    line,
    x: voltage,
    measured: thrust,
    fitted: Math.exp(intercept.value + slope.value * Math.log(voltage)),
  }));
  return { value: slope, residuals };
}

const GRAM_FORCE = 9.80665e-3;

function entriesOf(
  { full, pack, exponent }: Pick<ThrustStandFit, 'full' | 'pack' | 'exponent'>,
  file: string,
  { density }: ThrustStandOptions,
  invented: boolean,
): readonly Entry[] {
  const note = (what: string) => `${invented ? 'invented for demonstration: ' : ''}${what}; ${file}`;
  const rows = `${full.rows} ${full.rows === 1 ? 'row' : 'rows'} at full throttle`;
  const measured = (value: number, error: number | null, unit: string, what: string): Piece => {
    const said = { source: 'measured', note: note(what) };
    if (error === null || error === 0) return { value: `${figure(value)} ${unit}`.trim(), ...said };
    const [mean, sd] = [figure(value, error), figure(error, 0, 2)].map((one) => (unit === '' ? one : `${one} ${unit}`));
    return { normal: { mean, sd }, kind: UNMEASURED, ...said };
  };
  const entry = (path: InputPath, piece: Piece): Entry => ({ path, piece });
  const thrustError = full.thrust.error === null ? null : full.thrust.error / GRAM_FORCE;
  return [
    entry('rotors.bench_thrust', measured(full.thrust.value / GRAM_FORCE, thrustError, 'gf', `${rows}, one rotor`)),
    entry('rotors.bench_power', measured(full.power.value, full.power.error, 'W', `${rows}, one rotor`)),
    entry('rotors.bench_voltage', measured(full.voltage, null, 'V', `mean of the ${rows}`)),
    ...(density === null
      ? []
      : [entry('rotors.bench_density', measured(density, null, 'kg/m^3', 'said with the measurement'))]),
    ...(exponent === null
      ? []
      : [
          entry(
            'rotors.voltage_exponent',
            measured(exponent.value.value, exponent.value.error, '', `thrust against voltage, ${rows}`),
          ),
        ]),
    ...(pack === null
      ? []
      : [
          entry(
            'battery.resistance',
            resistancePiece(pack.resistance, note('voltage drop over current, one pack: another may differ')),
          ),
        ]),
  ];
}

function resistancePiece({ value, error }: Measured, note: string): Piece {
  const said = { source: 'measured', note };
  if (error === null || error === 0) return { value: `${figure(1000 * value)} mohm`, ...said };
  const spread = figure(Math.min(error / value, 2), 0, 2);
  return { 'log-normal': { median: `${figure(1000 * value, 1000 * error)} mohm`, spread }, kind: UNMEASURED, ...said };
}

function entriesText(entries: readonly Entry[]): string {
  const bySection = new Map<string, Entry[]>();
  for (const entry of entries) {
    const [section] = entry.path.split('.');
    bySection.set(section, [...(bySection.get(section) ?? []), entry]);
  }
  return [...bySection]
    .map(([section, own]) => {
      const lines = own.map(({ path, piece }) =>
        yamlText(atPath(path, piece), 2 + blockLevels(piece))
          .split('\n')
          .slice(1)
          .join('\n'),
      );
      return [`${section}:`, ...lines].join('\n');
    })
    .join('\n');
}

function warningsOf(
  { full, pack, exponent }: Pick<ThrustStandFit, 'full' | 'pack' | 'exponent'>,
  rows: readonly Row[],
  part: readonly Residual[],
  { density }: ThrustStandOptions,
): readonly Warning[] {
  const warnings: Warning[] = [];
  const warn = (code: string, text: string, advice: string) => warnings.push({ code, text, advice });
  if (full.thrust.error === null)
    warn(
      'no repeat',
      `Only ${full.rows} of ${rows.length} rows at full throttle: their scatter is not known.`,
      'Repeat full throttle at least three times, with the pack between full and nearly empty.',
    );
  if (exponent === null)
    warn(
      'no exponent',
      'The voltages at full throttle are too alike to tell how thrust goes with voltage; the square stands.',
      'Repeat full throttle on a full and on a nearly empty pack.',
    );
  else if (exponent.value.value < 0.5 || exponent.value.value > 3)
    warn(
      'odd exponent',
      `Thrust goes with voltage to the power ${figure(exponent.value.value, 0, 3)}, outside what the scenario takes (0.5 to 3).`,
      'Look for a row in which the pack was swapped or the stand slipped.',
    );
  if (pack === null)
    warn(
      'no resistance',
      'The voltage does not fall with the current: the stand ran from a supply, not from the pack.',
      'Measure on the pack that flies, with its leads.',
    );
  else if (inOrder(pack.residuals) > 0.5)
    warn(
      'drifting pack',
      'What the straight line leaves of the voltage drifts from row to row: the pack ran down meanwhile, which the line takes partly for resistance.',
      'Go up and down the throttle again and again, or rest the pack between rows.',
    );
  const off = part.filter(({ measured, fitted }) => Math.abs(measured - fitted) > 0.25 * fitted).length;
  if (part.length > 0 && off > part.length / 2)
    warn(
      'part throttle',
      `In ${off} of ${part.length} rows under full throttle the power is over a quarter off the model's thrust to the power 1.5.`,
      'The energy used on the approach will be off; thrust in the arrest is not touched.',
    );
  if (density === null)
    warn(
      'no density',
      'The air density during the measurement was not said; the scenario takes 1.225 kg/m^3.',
      "Say it, as --density '1.15 kg/m^3': thrust is proportional to it.",
    );
  return warnings;
}

/** Correlation of each residual with the next one, in the order of the rows. */
function inOrder(residuals: readonly Residual[]): number {
  const rest = residuals.map(({ measured, fitted }) => measured - fitted);
  const squares = rest.reduce((sum, one) => sum + one ** 2, 0);
  if (rest.length < 6 || squares === 0) return 0;
  return rest.slice(1).reduce((sum, one, i) => sum + one * rest[i], 0) / squares;
}
