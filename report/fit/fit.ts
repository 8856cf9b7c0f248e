/** The page of a fit is about samples and the curve through them, about a chance, or about a thrust stand. */
import type { FitResult, TrialsFit } from '../../sim/fit/result.js';
import { type Draw, drawChart } from '../kit/draw.js';
import { numberText, withUnit } from '../kit/words/numbers.js';
import { type EvidencePage, type EvidenceSection, renderEvidence } from '../page/evidence.js';
import { familiesSection, samplesSection } from './samples.js';
import { thrustSection } from './thrust-stand.js';

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
