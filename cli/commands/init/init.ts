/** The command `init`: writes a scenario to fill in. */
import { stat } from 'node:fs/promises';
import { refused } from '../../../sim/basics/answer.js';
import { type Command, type Given, givenFlag } from '../../arguments/command.js';
import { FORCE } from '../../arguments/options.js';
import { writeWhole } from '../../outputs/outputs.js';
import { type CommandEnd, EXIT } from '../../terminal/exit-codes.js';
import { print } from '../../terminal/streams.js';

const STANDARD_FILE = 'payload.yaml';

export const init: Command = {
  name: 'init',
  argument: { name: 'file', doc: `Where to write it [standard: ${STANDARD_FILE}]` },
  summary: 'Writes a commented scenario to fill in',
  options: { force: FORCE },
  examples: [['fallmargin init payload.yaml', 'then edit it and run: fallmargin check payload.yaml']],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const { file = STANDARD_FILE } = given;
  if (typeof file !== 'string' || file === '')
    return refused('init needs the name of a file: fallmargin init payload.yaml');
  if (!/\.ya?ml$/i.test(file)) return refused(`"${file}" should end in .yaml: fallmargin init ${file}.yaml`);
  const there = await stat(file).catch(() => null);
  if (there && !there.isFile()) return refused(`"${file}" is there and is not a file; choose another name.`);
  if (there && !givenFlag(given, 'force'))
    return refused(
      `"${file}" is there already and was left as it is; choose another name, or overwrite it with --force.`,
    );

  const { starterScenario } = await import('../../../sim/scenario/starter.js');
  const written = await writeWhole(file, [starterScenario()]);
  if (written.status === 'refused') return written;
  print(`Written: ${file}\nFill it in, then: fallmargin check ${file}`);
  return EXIT.done;
}
