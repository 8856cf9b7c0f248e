/** The page of one flight in full shows its events, and height, speeds, tilt and pack over time. */
import type { ColumnName } from '../../sim/flight/record.js';
import type { TraceResult } from '../../sim/trace/result.js';
import { type Draw, drawChart } from '../kit/draw.js';
import { type Table, table } from '../kit/table.js';
import { changesSentence } from '../kit/words/changes.js';
import { setting } from '../kit/words/inputs.js';
import { meaningOfCause } from '../kit/words/names.js';
import { fixedText, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { type EvidencePage, type EvidenceSection, renderEvidence } from '../page/evidence.js';
import { drawnSection } from './drawn.js';
import { traceFigures } from './over-time.js';

export async function renderTrace(traced: TraceResult, draw: Draw = drawChart): Promise<string> {
  return renderEvidence(await tracePage(traced, draw));
}

export async function tracePage(traced: TraceResult, draw: Draw): Promise<EvidencePage> {
  const { id, scenario, seed } = traced;
  const program = `fallmargin ${traced.versions.program}`;
  return {
    kind: 'One flight in full',
    title: `${scenario.title}, flight ${id}`,
    origin: `Seed ${seed} · scenario ${scenario.hash.slice(0, 12)} · ${program}`,
    notice: scenario.invented
      ? 'Invented data. The numbers of this scenario are made up for demonstration; no real payload is described.'
      : null,
    changed: changesSentence(scenario.changed),
    program,
    sections: [
      becameSection(traced),
      drawnSection(traced),
      {
        id: 'course',
        title: 'Over time',
        paragraphs: ['The numbers along the top are those of the events in section 1.'],
        figures: await traceFigures(traced, draw),
      },
      ...warningsSection(traced),
    ],
  };
}

/** Hazards to people, and what the flight could not show because the scenario takes it as perfect. */
function warningsSection({ warnings: advice }: TraceResult): readonly EvidenceSection[] {
  return advice.length === 0 ? [] : [{ id: 'warnings', title: 'Before you believe it', paragraphs: [], advice }];
}

const OUTCOME_WORDS = {
  soft: 'lands softly',
  hard: 'lands hard',
  crash: 'crashes',
  numerical: 'could not be computed to its end and counts as failed',
} as const;

function becameSection(traced: TraceResult): EvidenceSection {
  const { id, scenario, record, outcome, cause } = traced;
  const value = (name: ColumnName) => record[name] ?? Number.NaN;
  const known = cause === 'none' || cause === 'not sought' ? '' : ` Cause: ${cause}. ${meaningOfCause(cause)}`;
  const speed = (name: ColumnName) => withUnit(fixedText(value(name), 1), 'm/s');
  const touchdown = Number.isFinite(value('touchdown_speed'))
    ? ` It touches down ${withUnit(fixedText(value('time'), 1), 's')} after ejection at ${speed('touchdown_speed')} (${speed('vertical_speed')} downwards, ${speed('horizontal_speed')} over the ground), ${withUnit(fixedText(Math.hypot(value('east'), value('north')), 0), 'm')} from the planned landing point.`
    : '';
  const cue = setting(scenario, 'plan.cue');
  return {
    id: 'answer',
    title: 'What became of it',
    paragraphs: [
      `Flight ${id} ${OUTCOME_WORDS[outcome]}.${touchdown}${known}`,
      `One flight is a story, not a risk: how often it goes so is in the report of the study.${cue === '' ? '' : ` Throttle-up by ${cue}.`}`,
    ],
    tables: [eventTable(traced)],
  };
}

function eventTable({ events }: TraceResult): Table {
  return table(
    'The events in the order in which they came.',
    ['#No.', 'Event', '#Time after ejection, s', '#Height, m'],
    events.map(({ name, time, height }, index) => [
      String(index + 1),
      capitalised(name),
      fixedText(time, 2),
      height === null ? '-' : fixedText(height, 1),
    ]),
  );
}
