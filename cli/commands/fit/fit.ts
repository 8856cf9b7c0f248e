/** The command `fit`: turns bench and practice data into an input of the scenario, with how sure the data make it. */
import { basename } from 'node:path';
import { type Answer, ok, refused, together } from '../../../sim/basics/answer.js';
import type { FitFamily, FitResult } from '../../../sim/fit/result.js';
import type { Entry } from '../../../sim/scenario/file/write-into.js';
import { type Command, type Given, givenFlag, givenOptional, givenText, givenValue } from '../../arguments/command.js';
import { FORCE, JSON_OUT, OUT, QUIET } from '../../arguments/options.js';
import { parseQuantityOf } from '../../arguments/quantity.js';
import { baseOf } from '../../arguments/scenario.js';
import { parseWhole } from '../../arguments/values.js';
import { deliverEvidence, type Evidence } from '../../outputs/deliver.js';
import { readText, writeWhole } from '../../outputs/outputs.js';
import type { CommandEnd } from '../../terminal/exit-codes.js';
import { complain } from '../../terminal/streams.js';

const DATA = 'The data:';
const text = (describe: string) => ({ group: DATA, describe, type: 'string', requiresArg: true }) as const;
const FAMILIES = ['auto', 'normal', 'log-normal', 'weibull', 'triangular', 'samples'] as const;

export const fit: Command = {
  name: 'fit',
  argument: { name: 'data', doc: 'CSV file; not needed with --trials' },
  summary: 'Turns bench or practice data into an input of the scenario',
  options: {
    column: text('Column that holds the values'),
    unit: text('Unit of the values, such as s or gf; 1 for a pure number'),
    family: text(`One of ${FAMILIES.join(', ')} [standard: auto]`),
    trials: text('Instead of a file: how often it was tried'),
    failures: text('And how often it failed'),
    'thrust-stand': {
      group: DATA,
      describe: 'The file is a thrust-stand table: columns throttle, thrust, current, voltage',
      type: 'boolean',
    },
    rotors: text('Rotors on the stand at once [standard: 1]'),
    density: text("Air density at the stand, such as '1.15 kg/m^3'"),
    path: text('The input it is for, such as pilot.reaction'),
    into: text('Scenario file to write it into, at --path; its comments stay'),
    out: OUT,
    force: FORCE,
    json: JSON_OUT,
    quiet: QUIET,
  },
  examples: [
    ['fallmargin fit reaction.csv --column reaction_s --unit s', 'look first'],
    [
      'fallmargin fit r.csv --column t --unit s --into p.yaml --path pilot.reaction',
      'writes it into the scenario p.yaml',
    ],
    ['fallmargin fit --trials 40 --failures 1 --path arms.stuck', 'a chance from trials'],
    ['fallmargin fit stand.csv --thrust-stand --rotors 1', 'a thrust-stand table'],
  ],
  run,
};

async function run(given: Given): Promise<CommandEnd> {
  const request = together({
    column: givenText(given, 'column'),
    unit: givenText(given, 'unit'),
    family: givenValue(given, 'family', 'auto', parseFamily),
    trials: givenOptional(given, 'trials', (value) => parseWhole('--trials', value, 1, 1e9, '40')),
    failures: givenOptional(given, 'failures', (value) => parseWhole('--failures', value, 0, 1e9, '1')),
    rotors: givenValue(given, 'rotors', '1', (value) => parseWhole('--rotors', value, 1, 64, '4')),
    density: givenText(given, 'density'),
    path: givenText(given, 'path'),
    into: givenText(given, 'into'),
    out: givenText(given, 'out'),
  });
  if (request.status === 'refused') return request;
  const { trials, failures, into, path, out } = request.value;
  const isTrials = trials !== undefined || failures !== undefined;
  const isStand = givenFlag(given, 'thrust-stand');
  const unused = unusedBy(given, isTrials, isStand);
  if (unused !== null) return refused(unused);
  if (into !== undefined && path === undefined && !isStand)
    return refused('--into needs --path, the input to write, such as --path pilot.reaction.');

  const fitted = isTrials
    ? await fromTrials(trials, failures, path ?? null, given)
    : await fromFile(given, request.value, isStand);
  if (fitted.status === 'refused') return fitted;
  const { result, entries, base } = fitted.value;
  if (into !== undefined) {
    const { writeInto } = await import('../../../sim/scenario/file/write-into.js');
    const { diskFiles } = await import('../../../sim/scenario/file/files.js');
    const changed = writeInto(into, entries, diskFiles);
    if (changed.status === 'refused') return changed;
    const written = await writeWhole(into, [changed.value]);
    if (written.status === 'refused') return written;
    complain(`Written into ${into}: ${entries.map((entry) => entry.path).join(', ')}.`);
  }
  return deliver({ result, base, out, given });
}

/** An option that says nothing about this kind of data would be passed over in silence. */
function unusedBy(given: Given, isTrials: boolean, isStand: boolean): string | null {
  const [kind, idle] = isTrials
    ? ['with --trials', ['column', 'unit', 'family', 'thrust-stand', 'rotors', 'density']]
    : isStand
      ? ['with --thrust-stand', ['column', 'unit', 'family', 'path']]
      : ['without --thrust-stand', ['rotors', 'density']];
  const found = idle.filter((name) => given[name] !== undefined && given[name] !== false).map((name) => `--${name}`);
  if (found.length === 0) return null;
  const one = found.length === 1;
  return `${kind}, ${found.join(' and ')} ${one ? 'is' : 'are'} not used; leave ${one ? 'it' : 'them'} out.`;
}

async function deliver(request: Omit<Evidence<FitResult>, 'page' | 'summary'>): Promise<CommandEnd> {
  const { fitSummary } = await import('./summary.js');
  return deliverEvidence({
    ...request,
    summary: fitSummary,
    page: async (result) => (await import('../../../report/fit/fit.js')).renderFit(result),
  });
}

interface FittedFile {
  readonly result: FitResult;
  readonly entries: readonly Entry[];
  readonly base: string;
}

async function fromTrials(
  trials: number | undefined,
  failures: number | undefined,
  path: string | null,
  given: Given,
): Promise<Answer<FittedFile>> {
  if (trials === undefined || failures === undefined)
    return refused('trials and failures go together: fallmargin fit --trials 40 --failures 1');
  if (typeof given.data === 'string') return refused('with --trials there is no file to read; leave it out.');
  const { fitTrials } = await import('../../../sim/fit/fit.js');
  const fitted = fitTrials(trials, failures, path);
  if (fitted.status === 'refused') return fitted;
  const { result, piece } = fitted.value;
  return ok({ result, entries: path === null ? [] : [{ path, piece }], base: `trials-${failures}-of-${trials}` });
}

interface FileOptions {
  readonly column: string | undefined;
  readonly unit: string | undefined;
  readonly family: FitFamily | 'auto';
  readonly rotors: number;
  readonly density: string | undefined;
  readonly path: string | undefined;
}

async function fromFile(given: Given, options: FileOptions, isStand: boolean): Promise<Answer<FittedFile>> {
  const { data } = given;
  if (typeof data !== 'string' || data === '')
    return refused('fit needs a data file: fallmargin fit reaction.csv --column reaction_s --unit s');
  const read = await readText(data);
  if (read.status === 'refused') return read;
  const name = basename(data);
  if (isStand) {
    const density = await densityOf(options.density);
    if (density.status === 'refused') return density;
    const { fitThrustStand } = await import('../../../sim/fit/thrust-stand.js');
    const fitted = fitThrustStand(read.value, name, { rotors: options.rotors, density: density.value });
    if (fitted.status === 'refused') return fitted;
    return ok({ ...fitted.value, base: `${baseOf(data)}-fit` });
  }
  if (options.column === undefined) return refused(await columnsOf(read.value, name));
  const { fitColumn } = await import('../../../sim/fit/fit.js');
  const { column, family } = options;
  const path = options.path ?? null;
  const fitted = fitColumn(read.value, name, { column, family, path, unit: options.unit ?? null });
  if (fitted.status === 'refused') return fitted;
  const { result, piece } = fitted.value;
  return ok({ result, entries: path === null ? [] : [{ path, piece }], base: `${baseOf(data)}-fit` });
}

async function columnsOf(content: string, name: string): Promise<string> {
  const { openCsv } = await import('../../../sim/scenario/file/csv-columns.js');
  const table = openCsv(content, name);
  if (table.status === 'refused') return table.messages.join('\n');
  return `fit needs --column; the columns of "${name}" are ${table.value.names.map((one) => `"${one}"`).join(', ')}.`;
}

async function densityOf(written: string | undefined): Promise<Answer<number | null>> {
  if (written === undefined) return ok(null);
  const density = await parseQuantityOf('--density', written, 'density');
  if (density.status === 'refused') return density;
  return density.value >= 0.4 && density.value <= 1.6
    ? density
    : refused(`--density is "${written}", but air has from 0.4 to 1.6 kg/m^3.`);
}

function parseFamily(written: string): Answer<FitFamily | 'auto'> {
  const family = FAMILIES.find((one) => one === written.trim().toLowerCase());
  return family === undefined
    ? refused(`--family is "${written}", but must be one of ${FAMILIES.join(', ')}.`)
    : ok(family);
}
