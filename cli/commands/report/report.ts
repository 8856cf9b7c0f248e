/** The command `report`: renders the page of a saved result again; nothing is flown. */

import { prefixed, together } from '../../../sim/basics/answer.js';
import { type Command, type Given, givenFile, givenText } from '../../arguments/command.js';
import { OUT_HTML } from '../../arguments/options.js';
import { baseOf } from '../../arguments/scenario.js';
import { planOutputs, readText, writeWhole } from '../../outputs/outputs.js';
import { EXIT, type ExitCode, refuse } from '../../terminal/exit-codes.js';
import { print } from '../../terminal/streams.js';

export const report: Command = {
  name: 'report',
  argument: { name: 'result', doc: 'Result file that assess, compare or limits wrote (JSON)' },
  summary: 'Renders the HTML report again from a saved result',
  options: { out: OUT_HTML },
  examples: [['fallmargin report burdock.json --out again', 'writes again.html']],
  run,
};

async function run(given: Given): Promise<ExitCode> {
  const request = together({
    file: givenFile(given, 'report', 'result', 'burdock.json'),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return refuse(...request.messages);
  const { file, out } = request.value;
  const text = await readText(file);
  if (text.status === 'refused') return refuse(...text.messages);
  const { renderedPage } = await import('./rendered.js');
  const page = prefixed(`${file}: `, await renderedPage(text.value));
  if (page.status === 'refused') return refuse(...page.messages);
  const outputs = await planOutputs(out ?? baseOf(file), ['.html']);
  if (outputs.status === 'refused') return refuse(...outputs.messages);

  const written = await writeWhole(outputs.value[0], [page.value]);
  if (written.status === 'refused') return refuse(...written.messages);
  print(`Written: ${written.value}`);
  return EXIT.done;
}
