/** The page of one flight in full shows its events, and height, speeds, tilt and pack over time. */
import { CAUSES, COLUMN_NAMES, type ColumnName, OUTCOMES } from '../../sim/flight/record.js';
import type { Scenario } from '../../sim/scenario/scenario.js';
import { type Draw, drawChart } from '../kit/draw.js';
import { type Table, table } from '../kit/table.js';
import { setting } from '../kit/words/inputs.js';
import { meaningOfCause } from '../kit/words/names.js';
import { fixedText, withUnit } from '../kit/words/numbers.js';
import { capitalised } from '../kit/words/sentences.js';
import { type EvidencePage, type EvidenceSection, renderEvidence } from '../page/evidence.js';
import { type DrawnTrace, traceFigures } from './over-time.js';

/** One flight with all that names it; the trace itself as the flight model hands it over. */
export interface ReportedTrace {
  /** Such as "explore:17@250" or "nominal@250". */
  readonly id: string;
  readonly scenario: Scenario;
  readonly seed: string;
  /** Version of the program. */
  readonly program: string;
  readonly trace: DrawnTrace & {
    readonly record: { readonly outcome: number; readonly cause: number; readonly values: ArrayLike<number> };
  };
}

export async function renderTrace(traced: ReportedTrace, draw: Draw = drawChart): Promise<string> {
  return renderEvidence(await tracePage(traced, draw));
}

export async function tracePage(traced: ReportedTrace, draw: Draw): Promise<EvidencePage> {
  const { id, scenario, seed } = traced;
  const program = `fallmargin ${traced.program}`;
  return {
    kind: 'One flight in full',
    title: `${scenario.title}, flight ${id}`,
    origin: `Seed ${seed} · scenario ${scenario.hash.slice(0, 12)} · ${program}`,
    notice: scenario.invented
      ? 'Invented data. The numbers of this scenario are made up for demonstration; no real payload is described.'
      : null,
    program,
    sections: [
      becameSection(traced),
      {
        id: 'course',
        title: 'Over time',
        paragraphs: ['The numbers along the top are those of the events above.'],
        figures: await traceFigures(traced.trace, draw),
      },
    ],
  };
}

const OUTCOME_WORDS = {
  soft: 'lands softly',
  hard: 'lands hard',
  crash: 'crashes',
  numerical: 'could not be computed to its end and counts as failed',
} as const;

function becameSection({ id, scenario, trace }: ReportedTrace): EvidenceSection {
  const { record } = trace;
  const value = (name: ColumnName) => record.values[COLUMN_NAMES.indexOf(name)];
  const cause = CAUSES[record.cause];
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
      `Flight ${id} ${OUTCOME_WORDS[OUTCOMES[record.outcome]]}.${touchdown}${known}`,
      `One flight is a story, not a risk: how often it goes so is in the report of the study.${cue === '' ? '' : ` Throttle-up by ${cue}.`}`,
    ],
    tables: [eventTable(trace)],
  };
}

function eventTable({ events }: ReportedTrace['trace']): Table {
  return table(
    'The events in the order in which they came.',
    ['#No.', 'Event', '#Time after ejection, s', '#Height, m'],
    events.map(({ name, time, height }, index) => [
      String(index + 1),
      capitalised(name),
      fixedText(time, 2),
      fixedText(height, 1),
    ]),
  );
}
