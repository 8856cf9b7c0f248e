/** The command `merge`: puts the parts of a divided study together, to the result of the undivided study. */
import { availableParallelism } from 'node:os';
import { refused, together } from '../../../sim/basics/answer.js';
import { again } from '../../arguments/again.js';
import { type Command, type Given, givenFiles, givenFlag, givenText, givenValue } from '../../arguments/command.js';
import { CSV_OUT, FORCE, JSON_OUT, OUT, QUIET, THREADS } from '../../arguments/options.js';
import { parseThreads } from '../../arguments/values.js';
import { planResultFiles } from '../../outputs/deliver.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { untilInterrupted } from '../../terminal/interrupt.js';
import { complain } from '../../terminal/streams.js';

export const merge: Command = {
  name: 'merge',
  argument: { name: 'parts', doc: 'All part files of one study, in any order', many: true },
  summary: 'Puts the parts that assess --part flew together: the result of the undivided study',
  options: { threads: THREADS, out: OUT, force: FORCE, csv: CSV_OUT, json: JSON_OUT, quiet: QUIET },
  examples: [
    ['fallmargin merge payload-*-of-64.part', 'writes payload.html and payload.json, the same bytes as in one go'],
  ],
  run,
};

/** Messages shown at once: the first say what is wrong. */
const MOST_MESSAGES = 20;

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    files: givenFiles(given, 'merge', 'parts', 'payload-*-of-64.part'),
    threads: givenValue(given, 'threads', String(availableParallelism()), parseThreads),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  const { files, threads, out } = request.value;
  const { putTogether } = await import('../assess/part-files.js');
  const whole = putTogether(files);
  if (whole.status === 'refused') {
    const more = whole.messages.length - MOST_MESSAGES;
    return refused(
      ...whole.messages.slice(0, MOST_MESSAGES),
      ...(more > 0 ? [`... and ${more} more of the kind.`] : []),
    );
  }
  const { study, logbook } = whole.value;
  const [json, quiet] = [givenFlag(given, 'json'), givenFlag(given, 'quiet')];
  const outputs = await planResultFiles(given, out, study.name);
  if (outputs.status === 'refused') return outputs;

  const { flyAssessment } = await import('../assess/fly.js');
  return untilInterrupted(async (stop) => {
    const { scenario, options } = study;
    if (!quiet && (options.heights.kind === 'standard' || options.assurance !== undefined)) complain(FLOWN_HERE);
    const result = await flyAssessment(scenario, options, threads, quiet, stop, { logbook });
    if (result.status === 'refused') return result;
    if (result.status === 'nothing flown') return EXIT.interrupted;
    const { deliverAssessment } = await import('../assess/deliver.js');
    return await deliverAssessment(result.value, outputs.value, {
      json,
      quiet,
      repeat: again('merge', files, given, ...(out === undefined ? [] : ['--force'])),
    });
  });
}

const FLOWN_HERE =
  'All parts are there. What is asked of the inputs (worlds, what would help,\n' +
  'tipping values) is flown here and now, the same number of flights for any study.';
