/** The command `check`: reads a scenario back, with every input as resolved and the hand calculation beside a flight. */

import { together } from '../../../sim/basics/answer.js';
import { type Command, type Given, givenFile, givenFlag } from '../../arguments/command.js';
import { JSON_CHECK, SET } from '../../arguments/options.js';
import { givenOverrides, loadScenario } from '../../arguments/scenario.js';
import { CAUTION_LINES } from '../../terminal/caution.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { paintFor, print } from '../../terminal/streams.js';

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

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    file: givenFile(given, 'check', 'scenario', 'payload.yaml'),
    overrides: givenOverrides(given),
  });
  if (request.status === 'refused') return request;
  const scenario = await loadScenario(request.value.file, request.value.overrides);
  if (scenario.status === 'refused') return scenario;

  const { nominalDraw } = await import('../../../sim/draws/drawer.js');
  const { createFlightModel } = await import('../../../sim/flight/model.js');
  const { scenarioWarnings } = await import('../../../sim/scenario/hazards.js');
  const { handCalculation } = await import('../../../sim/check/hand-calculation.js');
  const hand = handCalculation(scenario.value, nominalDraw(scenario.value), createFlightModel(scenario.value));
  const warnings = scenarioWarnings(scenario.value);
  if (givenFlag(given, 'json')) print(JSON.stringify({ kind: 'check', scenario: scenario.value, hand, warnings }));
  else {
    const { checkSummary } = await import('./summary.js');
    print([...checkSummary(scenario.value, hand, warnings, paintFor(process.stdout)), ...CAUTION_LINES].join('\n'));
  }
  return EXIT.done;
}
