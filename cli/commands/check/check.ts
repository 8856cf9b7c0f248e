/** The command `check`: whether it flies at all, what is implausible in a scenario, and the scenario read back. */

import { type Answer, together } from '../../../sim/basics/answer.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { type Command, type Given, givenFile, givenFlag } from '../../arguments/command.js';
import { JSON_CHECK, SET } from '../../arguments/options.js';
import { givenOverrides } from '../../arguments/scenario.js';
import { CAUTION_LINES } from '../../terminal/caution.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { paintFor, print } from '../../terminal/streams.js';

export const check: Command = {
  name: 'check',
  argument: { name: 'scenario', doc: 'Scenario file (YAML); the height and the limit may still be to decide' },
  summary: 'Says whether it flies at all and what is implausible; reads the scenario back',
  options: { set: SET, json: JSON_CHECK },
  examples: [
    ['fallmargin check payload.yaml', 'before anything is simulated'],
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
  const { readOpenScenario } = await import('../../../sim/scenario/file/read.js');
  const { file, overrides } = request.value;
  const scenario: Answer<Scenario> = readOpenScenario(file, overrides);
  if (scenario.status === 'refused') return scenario;
  const inFile = overrides.length === 0 ? scenario : readOpenScenario(file, []);

  const { scenarioWarnings } = await import('../../../sim/scenario/hazards.js');
  const { checkScenario } = await import('../../../sim/check/check.js');
  const checked = checkScenario(scenario.value, inFile.status === 'ok' ? inFile.value : scenario.value);
  const warnings = scenarioWarnings(scenario.value);
  if (givenFlag(given, 'json'))
    print(JSON.stringify({ kind: 'check', scenario: scenario.value, ...checked, warnings }));
  else {
    const { checkSummary } = await import('./summary.js');
    print([...checkSummary(scenario.value, checked, warnings, paintFor(process.stdout)), ...CAUTION_LINES].join('\n'));
  }
  return checked.answer.flies ? EXIT.done : EXIT.notWithin;
}
