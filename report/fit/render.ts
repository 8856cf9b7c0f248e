/** The page of a fit: samples, curve and quantile plot; or a chance; or a thrust stand. */
import type { FamilyFit, FitResult, Residual, SamplesFit, ThrustStandFit, TrialsFit } from '../../sim/fit/result.js';
import { type Draw, drawChart } from '../kit/draw.js';
import { type Figure, figure, numericCell, type Table, table } from '../kit/table.js';
import { numberText, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { type EvidencePage, type EvidenceSection, renderEvidence } from '../page/evidence-page.js';
import { fitChart, quantileChart, type ResidualWords, residualChart } from './fit-chart.js';

export async function renderFit(result: FitResult, draw: Draw = drawChart): Promise<string> {
  return renderEvidence(await fitPage(result, draw));
}

export async function fitPage(result: FitResult, draw: Draw): Promise<EvidencePage> {
  const program = `fallmargin ${result.versions.program}`;
  const notice = /\binvented\b/.test(result.fragment)
    ? 'Invented data. These numbers are made up for demonstration.'
    : null;
  const common = { kind: 'Bench data report', notice, program };
  switch (result.form) {
    case 'samples':
      return {
        ...common,
        title: `${result.data.column}: ${result.count} values`,
        origin: `Column ${result.data.column} of ${result.data.file} · ${program}`,
        sections: [await samplesSection(result, draw), familiesSection(result), ...endSections(result)],
      };
    case 'trials':
      return {
        ...common,
        title: `${result.failures} ${result.failures === 1 ? 'failure' : 'failures'} in ${result.trials} trials`,
        origin: program,
        sections: [trialsSection(result), ...endSections(result)],
      };
    case 'thrust stand':
      return {
        ...common,
        title: `Thrust stand: ${result.rows} rows`,
        origin: `${result.file} · ${program}`,
        sections: [await thrustSection(result, draw), ...endSections(result)],
      };
  }
}

function endSections(result: FitResult): readonly EvidenceSection[] {
  const warnings: readonly EvidenceSection[] =
    result.warnings.length === 0
      ? []
      : [{ id: 'warnings', title: 'Before you trust it', paragraphs: [], advice: result.warnings }];
  return [
    ...warnings,
    {
      id: 'fragment',
      title: 'To paste into the scenario',
      paragraphs: [
        result.form === 'samples' && result.path === null
          ? 'Put the lines under "input:" at the entry that they are for; --into and --path write it there.'
          : 'Its parameters carry what the measurement leaves open; measuring more narrows them, and the flight-to-flight spread stays as it is.',
      ],
      code: result.fragment,
    },
  ];
}

async function samplesSection(result: SamplesFit, draw: Draw): Promise<EvidenceSection> {
  const { data, count, mean, sd, chosen, why, values, quantiles } = result;
  const name = chosen === 'samples' ? 'the samples themselves' : `a ${chosen}`;
  const family = result.families.find((one) => one.family === chosen);
  const figures: Figure[] = [
    await figure(draw, {
      id: 'fit',
      caption: `${count} values of ${data.column}: mean ${valueText(mean, data.unit)}, standard deviation ${valueText(sd, data.unit)}.${chosen === 'samples' ? '' : ` The line is ${name}.`}`,
      charts: [(frame) => fitChart(result, frame)],
      labels: [`The ${count} values as marks and the density of ${name} as a line.`],
      table: null,
    }),
    await figure(draw, {
      id: 'quantiles',
      caption: `Where the fit is good, the points lie along the dashed line. ${capitalised(family?.verdict ?? '')}.`,
      charts: [(frame) => quantileChart(result, frame)],
      labels: [`Measured values against the quantiles of ${name}.`],
      table: table(
        'Measured values and the quantiles of the fit at the same ranks.',
        ['#Rank', '#Measured', '#By the fit'],
        pick(values.length).map((i) => [String(i + 1), numberText(values[i], 4), numberText(quantiles[i], 4)]),
      ),
    }),
  ];
  return {
    id: 'answer',
    title: capitalised(name),
    paragraphs: [why, emptyText(result)].filter((one) => one !== ''),
    figures,
  };
}

function emptyText({ empty }: SamplesFit): string {
  return empty === 0
    ? ''
    : `${empty} ${empty === 1 ? 'row has' : 'rows have'} no value in this column and ${empty === 1 ? 'is' : 'are'} left out.`;
}

/** At most thirty ranks, evenly spread. */
function pick(count: number): readonly number[] {
  const shown = Math.min(30, count);
  return Array.from({ length: shown }, (_, i) => Math.round((i * (count - 1)) / Math.max(1, shown - 1)));
}

function valueText(value: number, unit: string): string {
  return withUnit(numberText(value), unit);
}

function familiesSection({ families }: SamplesFit): EvidenceSection {
  return {
    id: 'families',
    title: 'Every family tried',
    paragraphs: [
      'A2 is the Anderson-Darling distance, modified where the critical values for estimated parameters ask for it (Stephens 1974, 1977). The triangular has its mode at one of the samples, the least and the most left out. For it no table holds: its 5 % point and its p come from samples drawn from the fit and fitted again, so they are rough. A family that is not refused is not confirmed.',
    ],
    tables: [
      table(
        'Maximum likelihood for each family; the lower the Akaike figure, the likelier the samples for its number of parameters.',
        ['Family', 'Parameters, with 95 % range', '#A2', '5 % point', '#Akaike', 'Verdict'],
        families.map((one) => [
          one.family,
          parametersText(one),
          numericCell(one.fit === null ? '-' : (one.fit.modified ?? one.fit.statistic).toFixed(3)),
          criticalText(one),
          numericCell(one.akaike === null ? '-' : one.akaike.toFixed(1)),
          capitalised(one.verdict),
        ]),
      ),
    ],
  };
}

function parametersText({ parameters }: FamilyFit): string {
  if (parameters.length === 0) return '-';
  return parameters
    .map(
      ({ name, unit, estimate, low, high }) =>
        `${name} ${valueText(estimate, unit)} (${numberText(low)} to ${numberText(high)})`,
    )
    .join('; ');
}

function criticalText({ fit }: FamilyFit): string {
  if (fit === null) return '-';
  const five = String(fit.points.find(({ level }) => level === 0.05)?.value ?? '-');
  return fit.pValue === null ? five : `${five}, p ${fit.pValue.toFixed(2)}`;
}

function trialsSection({ trials, failures, mean, low, high }: TrialsFit): EvidenceSection {
  const percent = (share: number) => withUnit(numberText(100 * share, 2), '%');
  return {
    id: 'answer',
    title: 'A chance from trials',
    paragraphs: [
      `${failures} ${failures === 1 ? 'failure' : 'failures'} in ${trials} trials: the chance is about ${percent(mean)}, with 95 % probability from ${percent(low)} to ${percent(high)} (Beta law with the prior of Jeffreys). The chance is one number that nobody knows exactly; the event varies from flight to flight.`,
    ],
  };
}

async function thrustSection(result: ThrustStandFit, draw: Draw): Promise<EvidenceSection> {
  const { full, pack, exponent, partThrottle, rotors } = result;
  const gf = (newtons: number, digits = 3) => numberText(newtons / 9.80665e-3, digits);
  const error = (value: number | null, text: (one: number) => string) => (value === null ? '' : ` ± ${text(value)}`);
  const figures: Figure[] = [];
  const add = async (id: string, caption: string, residuals: readonly Residual[], words: ResidualWords) =>
    figures.push(
      await figure(draw, {
        id,
        caption,
        charts: [(frame) => residualChart(residuals, words, frame)],
        labels: [caption],
        table: residualTable(residuals, words),
      }),
    );
  if (pack !== null) {
    const caption = `Voltage less the straight line of ${numberText(1000 * pack.resistance.value)} mohm: no order among the points means that resistance is all there is.`;
    await add('pack', caption, pack.residuals, { across: 'Current, A', up: 'Left over, V' });
  }
  if (exponent !== null) {
    const caption = `Full-throttle thrust less voltage to the power ${numberText(exponent.value.value)}.`;
    await add('exponent', caption, exponent.residuals, { across: 'Voltage, V', up: 'Left over, N' });
  }
  if (partThrottle.length > 0) {
    const caption =
      'Power under full throttle less full power times (thrust over full thrust) to the power 1.5, which the model takes.';
    await add('part', caption, partThrottle, { across: 'Thrust over full thrust', up: 'Left over, W' });
  }
  const resistance =
    pack === null
      ? ''
      : ` The pack with its leads: ${numberText(1000 * pack.resistance.value)}${error(pack.resistance.error, (one) => numberText(1000 * one, 2))} mohm.`;
  const power =
    exponent === null
      ? ''
      : ` Thrust goes with voltage to the power ${numberText(exponent.value.value)}${error(exponent.value.error, (one) => numberText(one, 2))}.`;
  return {
    id: 'answer',
    title: 'What the stand says',
    paragraphs: [
      `${rotors === 1 ? 'The rotor' : `One of ${rotors} rotors`} at full throttle: ${gf(full.thrust.value)}${error(full.thrust.error, (one) => gf(one, 2))} gf and ${numberText(full.power.value)}${error(full.power.error, (one) => numberText(one, 2))} W at ${numberText(full.voltage)} V (${full.rows} of ${result.rows} rows).${power}${resistance}`,
      "The figures behind the plus-minus signs are standard errors, widened by Student's t for few rows.",
    ],
    figures,
  };
}

function residualTable(residuals: readonly Residual[], { across, up }: ResidualWords): Table {
  const unit = up.replace(/^.*, /, '');
  return table(
    'Row by row: measured, fitted, and what is left over.',
    ['#Line of the file', `#${across}`, `#Measured, ${unit}`, `#Fitted, ${unit}`, `#${up}`],
    pick(residuals.length).map((i) => {
      const { line, x, measured, fitted } = residuals[i];
      return [
        String(line),
        numberText(x),
        numberText(measured, 4),
        numberText(fitted, 4),
        numberText(measured - fitted, 2),
      ];
    }),
  );
}
