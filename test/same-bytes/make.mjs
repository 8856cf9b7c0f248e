/**
 * Writes what the program says and writes in a few minutes' worth of small runs, to hold two versions of it against each
 * other byte for byte when sources are moved or rewritten and nothing may change for who uses it.
 *
 *   npm run build && node test/same-bytes/make.mjs before     # at the commit to start from; the folder is made anew
 *   npm run build && node test/same-bytes/make.mjs after      # after the change
 *   node test/same-bytes/compare.mjs before after             # lists what differs and where; exit code 1 if anything does
 *
 * `--program PATH/TO/dist/program/main.js` runs another checkout's program instead, on the scenarios in the configs/ of that
 * checkout; `--only WORD` runs the jobs that have the word in their name, for a quick look. Every job runs in a folder of its
 * own with the scenarios copied into it and file names without a folder, so no path of the machine gets into a file. Of each
 * command its standard output, its standard error (without the lines that tell how far it is) and its exit code are kept
 * beside the files that it writes. Seeds are fixed and numbers of flights are given, so two runs give the same bytes: make
 * `before` twice and compare to see it. About a minute and a half on two quiet cores.
 */
import { spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { dirname, join, resolve } from 'node:path';
import { argv, env, execPath, exit, version } from 'node:process';
import { parseArgs } from 'node:util';
import { jobs } from './jobs.mjs';

const { positionals, values } = parseArgs({
  args: argv.slice(2),
  allowPositionals: true,
  options: { program: { type: 'string' }, only: { type: 'string' } },
});
if (positionals.length !== 1) {
  console.error('Usage: node test/same-bytes/make.mjs OUT [--program PATH/TO/dist/program/main.js] [--only WORD]');
  exit(2);
}
const out = resolve(positionals[0]);
const program = resolve(values.program ?? join(import.meta.dirname, '../../dist/program/main.js'));
if (!existsSync(program)) {
  console.error(`${program} is not there: npm run build`);
  exit(2);
}
/** The checkout that the program was built in: dist/program/main.js of it. */
const configs = join(dirname(program), '../../configs');
const scenarios = readdirSync(configs).filter((name) => statSync(join(configs, name)).isFile());

if (existsSync(out) && readdirSync(out).length > 0 && !existsSync(join(out, 'about.json'))) {
  console.error(`${out} is not empty and was not written by this script; name another folder.`);
  exit(2);
}
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });
cpSync(configs, join(out, 'configs'), { recursive: true });

const waiting = jobs(scenarios).filter(({ name }) => name.includes(values.only ?? ''));
const begin = performance.now();
await Promise.all(Array.from({ length: Math.min(2, availableParallelism()) }, work));
const { stdout } = await run(out, ['--version']);
writeFileSync(
  join(out, 'about.json'),
  `${JSON.stringify({ program: stdout.trim(), node: version.slice(1), folder: out })}\n`,
);
console.log(`${out}: ${((performance.now() - begin) / 1000).toFixed(0)} s`);

async function work() {
  for (let job = waiting.shift(); job !== undefined; job = waiting.shift()) {
    const folder = join(out, job.name);
    mkdirSync(folder);
    for (const name of scenarios) cpSync(join(configs, name), join(folder, name));
    for (const [name, text] of Object.entries(job.files ?? {})) writeFileSync(join(folder, name), text);
    for (const [index, words] of job.commands.entries()) {
      const said = await run(folder, words);
      const base = join(folder, `said-${String(index + 1).padStart(2, '0')}`);
      writeFileSync(`${base}.command`, `fallmargin ${words.join(' ')}\n`);
      writeFileSync(`${base}.stdout`, said.stdout);
      writeFileSync(`${base}.stderr`, withoutProgress(said.stderr));
      writeFileSync(`${base}.code`, `${said.code}\n`);
    }
    for (const name of scenarios) if (unchanged(join(folder, name), join(configs, name))) rmSync(join(folder, name));
  }
}

function unchanged(copy, original) {
  return existsSync(copy) && readFileSync(copy).equals(readFileSync(original));
}

function run(folder, words) {
  return new Promise((done, failed) => {
    const { FORCE_COLOR: _, NODE_OPTIONS: __, ...quiet } = env;
    const child = spawn(execPath, [program, ...words], {
      cwd: folder,
      env: { ...quiet, NO_COLOR: '1', TZ: 'UTC', LC_ALL: 'C' },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    const said = { stdout: [], stderr: [] };
    for (const name of ['stdout', 'stderr']) child[name].on('data', (bytes) => said[name].push(bytes));
    child.on('error', failed);
    child.on('close', (code, signal) => {
      const [stdout, stderr] = [said.stdout, said.stderr].map((chunks) => Buffer.concat(chunks).toString());
      done({ code: code ?? signal, stdout, stderr });
    });
  });
}

/** How far the flying is depends on the clock: those lines are dropped. */
function withoutProgress(text) {
  return text
    .split('\n')
    .filter((line) => !/ of about [\d.e+]+ .*, \d+ %/.test(line))
    .join('\n');
}
