/** Reads scenario files to a scenario, or to everything that is wrong with them. */
import { dirname } from 'node:path';
import { type Ok, ok, type Refused, refused } from '../../basics/answer.js';
import type { Scenario } from '../scenario.js';
import { readChain } from './chain.js';
import { readCorrelations } from './correlations.js';
import { diskFiles, type Files } from './files.js';
import { readLayer } from './layer.js';
import { readOverride, SET } from './override.js';
import { collector, describeProblem, inFileOrder, type Problem } from './problem.js';
import { type ReadLayer, resolve } from './resolve.js';
import type { WrittenMap } from './written.js';

/** A refusal has a sentence for each problem, and the problems with their places, in the order of files and lines. */
export type ReadScenario = Ok<Scenario> | (Refused & { readonly problems: readonly Problem[] });

/**
 * Reads a scenario file, the files that it extends, and overrides such as "can.mass=420 g" that hold over them. Bad
 * input of any kind is refused with all its problems at once; it never throws.
 */
export function readScenario(path: string, overrides: readonly string[] = [], files: Files = diskFiles): ReadScenario {
  return readAs({ mayBeOpen: false }, path, overrides, files);
}

/** The same; but decisions that are still to be made are left out of the scenario, and `openDecisions` names them. */
export function readOpenScenario(path: string, overrides: readonly string[], files: Files = diskFiles): ReadScenario {
  return readAs({ mayBeOpen: true }, path, overrides, files);
}

function readAs(
  { mayBeOpen }: { readonly mayBeOpen: boolean },
  path: string,
  overrides: readonly string[],
  files: Files,
): ReadScenario {
  const problems: Problem[] = [];
  const report = collector(problems);
  const chain = readChain(path, files, report);
  const layerOf = (root: WrittenMap, folder: string): ReadLayer => {
    const layer = readLayer(root, folder, files, report);
    return { ...layer, rows: layer.correlations === null ? null : readCorrelations(layer.correlations, report) };
  };
  const fromFiles = [...chain.files]
    .reverse()
    .flatMap(({ name, root }) => (root === null ? [] : [layerOf(root, dirname(name))]));
  const roots = overrides.map((override, index) => readOverride(override, index + 1, report));
  const fromOverrides = roots.flatMap((root) => (root === null ? [] : [layerOf(root, '.')]));

  const start = { file: path, line: 1, column: 1 };
  const scenario = resolve(
    [...fromFiles, ...fromOverrides],
    { start, complete: chain.complete, overrides, fromFiles: fromFiles.length, mayBeOpen },
    report,
  );
  if (problems.length === 0) return ok(scenario);
  const inOrder = inFileOrder(problems, [...chain.files.map(({ name }) => name), SET]);
  return { ...refused(...inOrder.map(describeProblem)), problems: inOrder };
}
