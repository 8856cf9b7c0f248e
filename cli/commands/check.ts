/** Reads a scenario back: every input as resolved, and the hand calculation beside one simulated ordinary flight. */
import { givenOverrides } from '../arguments/overrides.js';
import { type Command, type Given, givenFile, givenFlag } from '../command.js';
import { EXIT, type ExitCode } from '../exit-codes.js';
import { JSON_CHECK, SET } from '../options.js';
import { together } from '../parsed.js';
import { refuse } from '../refuse.js';
import { loadScenario } from '../scenario.js';
import { paintFor, print } from '../terminal/streams.js';

export const check: Command = {
  name: 'check',
  argument: { name: 'scenario', doc: 'Scenario file (YAML)' },
  summary: 'Reads a scenario back, with the hand calculation and the guesses that matter',
  options: { set: SET, json: JSON_CHECK },
  examples: [
    ['fallmargin check configs/burdock.yaml', 'the demo'],
    ["fallmargin check payload.yaml --set 'site.temperature=40 degC'", 'on a hot day'],
  ],
  run,
};

async function run(given: Given): Promise<ExitCode> {
  const request = together({
    file: givenFile(given, 'check', 'scenario', 'payload.yaml'),
    overrides: givenOverrides(given),
  });
  if (request.status === 'refused') return refuse(...request.messages);
  const scenario = await loadScenario(request.value.file, request.value.overrides);
  if (scenario.status === 'refused') return refuse(...scenario.messages);

  const { nominalDraw } = await import('../../sim/draws/drawer.js');
  const { createFlightModel } = await import('../../sim/flight/model.js');
  const { handCalculation } = await import('../../sim/study/hand/hand-calculation.js');
  const hand = handCalculation(scenario.value, nominalDraw(scenario.value), createFlightModel(scenario.value));
  if (givenFlag(given, 'json')) print(JSON.stringify({ kind: 'check', scenario: scenario.value, hand }));
  else {
    const { checkSummary } = await import('../terminal/check-summary.js');
    print(checkSummary(scenario.value, hand, paintFor(process.stdout)).join('\n'));
  }
  return EXIT.done;
}
