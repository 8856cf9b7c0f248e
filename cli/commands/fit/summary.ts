/** A fit for a terminal: the answer, the families tried, what to know before trusting it, and the text to paste. */

import type { FamilyFit, FitResult, SamplesFit, ThrustStandFit } from '../../../sim/fit/result.js';
import { columns, labelled, wrapped } from '../../terminal/layout.js';
import type { Paint } from '../../terminal/streams.js';
import { warningLines } from '../../terminal/warnings.js';

export function fitSummary(result: FitResult, paint: Paint): readonly string[] {
  const answer =
    result.form === 'samples'
      ? samplesLines(result, paint)
      : result.form === 'trials'
        ? trialsLines(result)
        : thrustLines(result);
  return [
    ...answer,
    '',
    ...warningLines(result.warnings, paint),
    paint('bold', 'To paste into the scenario'),
    result.fragment,
    '',
  ];
}

function samplesLines(
  { data, count, empty, mean, sd, families, chosen, why }: SamplesFit,
  paint: Paint,
): readonly string[] {
  const left = empty === 0 ? '' : ` (${empty} without a value left out)`;
  const unit = data.unit === '' ? '' : ` ${data.unit}`;
  return [
    paint(
      'bold',
      `${data.column} of ${data.file}: ${count} values${left}, mean ${digits(mean)}${unit}, sd ${digits(sd)}${unit}`,
    ),
    ...wrapped(`Taken: ${chosen}. ${why}`),
    '',
    ...columns(
      [['family', 'A2', '5 % point', 'Akaike'], ...families.filter(({ fit }) => fit !== null).map(familyCells)],
      2,
      [1, 2, 3],
    ),
    '',
    ...families
      .filter(({ fit }) => fit !== null)
      .flatMap((one) => labelled(`  ${one.family}`, `${parametersText(one)}; ${one.verdict}`, 14)),
  ];
}

function parametersText({ parameters }: FamilyFit): string {
  return parameters
    .map(({ name, unit, estimate, low, high }) =>
      `${name} ${digits(estimate)} ${unit} (95 %: ${digits(low)} to ${digits(high)})`.replace('  ', ' '),
    )
    .join(', ');
}

function familyCells({ family, fit, akaike }: FamilyFit): readonly string[] {
  const five = fit?.points.find(({ level }) => level === 0.05)?.value;
  return [
    family,
    (fit?.modified ?? fit?.statistic ?? 0).toFixed(3),
    five === undefined ? `p ${(fit?.pValue ?? 0).toFixed(2)}` : String(five),
    (akaike ?? 0).toFixed(1),
  ];
}

function trialsLines(result: Extract<FitResult, { form: 'trials' }>): readonly string[] {
  const percent = (share: number) => `${digits(100 * share, 2)} %`;
  const { trials, failures, mean, low, high } = result;
  return wrapped(
    `${failures} ${failures === 1 ? 'failure' : 'failures'} in ${trials} trials: a chance of about ${percent(mean)}, with 95 % probability from ${percent(low)} to ${percent(high)}.`,
  );
}

function thrustLines({ file, rows, full, pack, exponent, rotors }: ThrustStandFit): readonly string[] {
  const plus = (error: number | null, scale = 1) => (error === null ? '' : ` +- ${digits(scale * error, 2)}`);
  const gf = 1 / 9.80665e-3;
  return [
    `${file}: ${rows} rows, ${full.rows} of them at full throttle, ${rotors} ${rotors === 1 ? 'rotor' : 'rotors'}`,
    ...columns([
      ['full-throttle thrust of one rotor', `${digits(gf * full.thrust.value)}${plus(full.thrust.error, gf)} gf`],
      ['full-throttle power of one rotor', `${digits(full.power.value)}${plus(full.power.error)} W`],
      ['at', `${digits(full.voltage)} V`],
      [
        'thrust goes with voltage to the power',
        exponent === null ? 'not told by these rows' : `${digits(exponent.value.value)}${plus(exponent.value.error)}`,
      ],
      [
        'resistance of pack and leads',
        pack === null
          ? 'not told by these rows'
          : `${digits(1000 * pack.resistance.value)}${plus(pack.resistance.error, 1000)} mohm`,
      ],
    ]),
  ];
}

function digits(value: number, count = 3): string {
  const text = value.toPrecision(count);
  return text.includes('e') ? String(Number(text)) : text;
}
