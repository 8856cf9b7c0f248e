/** The command `trace`: flies a single flight again, with its events on the terminal, its page, its history and all of it as JSON. */

import { prefixed, together } from '../../../sim/basics/answer.js';
import { type Command, type Given, givenFile, givenFlag, givenText, givenValue } from '../../arguments/command.js';
import { FLIGHT, FORCE, JSON_OUT, OUT_TRACE, SEED, SET, STANDARD_SEED } from '../../arguments/options.js';
import { baseOf, givenOverrides, loadScenario } from '../../arguments/scenario.js';
import { parseSeed } from '../../arguments/values.js';
import { deliver, planNewFiles } from '../../outputs/deliver.js';
import { EXIT, type ExitCode, refuse } from '../../terminal/exit-codes.js';

export const trace: Command = {
  name: 'trace',
  argument: { name: 'scenario', doc: 'Scenario file (YAML)' },
  summary: 'Flies one flight again in full: what was drawn, events, charts, its history as CSV, all of it as JSON',
  options: { flight: FLIGHT, seed: SEED, set: SET, out: OUT_TRACE, force: FORCE, json: JSON_OUT },
  examples: [
    ['fallmargin trace payload.yaml --flight explore:17@250', 'a flight that the report lists'],
    ['fallmargin trace payload.yaml --flight 17', 'the same flight at the planned height'],
    ['fallmargin trace payload.yaml --flight nominal', 'every input at its median, no gusts'],
    ['fallmargin trace payload.yaml --flight 17 --json', 'all that another program needs to fly it again'],
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
  const json = givenFlag(given, 'json');
  const outputs = await planNewFiles(
    given,
    out,
    `${baseOf(file)}-${traced.value.name}`,
    json && out === undefined ? [] : ['.html', '.json', '.csv'],
  );
  if (outputs.status === 'refused') return refuse(...outputs.messages);

  const { traceResult } = await import('../../../sim/trace/put-together.js');
  const { traceCsv } = await import('../../../sim/trace/trace-columns.js');
  const { traceSummary } = await import('./summary.js');
  const delivered = await deliver({
    result: traceResult({ scenario: scenario.value, overrides, seed }, traced.value),
    paths: outputs.value,
    json,
    page: async (one) => (await import('../../../report/trace/trace.js')).renderTrace(one),
    csv: () => traceCsv(traced.value.trace),
    lines: (one, paint, files) => [...traceSummary(one, paint), ...files],
  });
  return delivered.status === 'refused' ? refuse(...delivered.messages) : EXIT.done;
}
