/** The command `trace`: flies a single flight again, with its events on the terminal and its time history as CSV. */

import { prefixed, together } from '../../../sim/basics/answer.js';
import { type Command, type Given, givenFile, givenText, givenValue } from '../../arguments/command.js';
import { FLIGHT, OUT_CSV, SEED, SET, STANDARD_SEED } from '../../arguments/options.js';
import { baseOf, givenOverrides, loadScenario } from '../../arguments/scenario.js';
import { parseSeed } from '../../arguments/values.js';
import { planOutputs, writeWhole } from '../../outputs/outputs.js';
import { EXIT, type ExitCode, refuse } from '../../terminal/exit-codes.js';
import { print } from '../../terminal/streams.js';

export const trace: Command = {
  name: 'trace',
  argument: { name: 'scenario', doc: 'Scenario file (YAML)' },
  summary: 'Flies one flight again in full: events, charts, and its time history as CSV',
  options: { flight: FLIGHT, seed: SEED, set: SET, out: OUT_CSV },
  examples: [
    ['fallmargin trace payload.yaml --flight explore:17@250', 'a flight that the report lists'],
    ['fallmargin trace payload.yaml --flight 17', 'the same flight at the planned height'],
    ['fallmargin trace payload.yaml --flight nominal', 'every input at its median, no gusts'],
  ],
  run,
};

async function run(given: Given): Promise<ExitCode> {
  const request = together({
    file: givenFile(given, 'trace', 'scenario', 'payload.yaml --flight 17'),
    flight: givenText(given, 'flight'),
    seed: givenValue(given, 'seed', STANDARD_SEED, parseSeed),
    overrides: givenOverrides(given),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return refuse(...request.messages);
  const { file, flight, seed, overrides, out } = request.value;
  if (flight === undefined)
    return refuse(
      'trace needs a flight: --flight explore:17@250, --flight 17 or --flight nominal; the report lists some.',
    );
  const scenario = await loadScenario(file, overrides);
  if (scenario.status === 'refused') return refuse(...scenario.messages);

  const { traceFlight } = await import('../../../sim/trace/trace-flight.js');
  const traced = prefixed(`--flight is "${flight}": `, traceFlight(scenario.value, seed, flight));
  if (traced.status === 'refused') return refuse(...traced.messages);
  const outputs = await planOutputs(out ?? `${baseOf(file)}-${traced.value.name}`, ['.html', '.csv']);
  if (outputs.status === 'refused') return refuse(...outputs.messages);

  const { traceCsv } = await import('../../../sim/trace/trace-columns.js');
  const { renderTrace } = await import('../../../report/trace/trace.js');
  const { PROGRAM_VERSION } = await import('../../../sim/basics/versions.js');
  const { id, trace: whole } = traced.value;
  const page = await renderTrace({ id, scenario: scenario.value, seed, program: PROGRAM_VERSION, trace: whole });
  const written: string[] = [];
  for (const [index, content] of [[page], traceCsv(whole)].entries()) {
    const file = await writeWhole(outputs.value[index], content);
    if (file.status === 'refused') return refuse(...file.messages);
    written.push(file.value);
  }
  const { traceSummary } = await import('./summary.js');
  print([...traceSummary(traced.value), `Written: ${written.join(' ')}`].join('\n'));
  return EXIT.done;
}
