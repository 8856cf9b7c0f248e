/** Inputs whose value lies off their own law: what the file says before a change, or the standard of the definition. */

import { quantileOf } from '../distributions/law.js';
import { leafPaths } from '../scenario/definition/leaves.js';
import { standardInput } from '../scenario/file/standard.js';
import { inputNamed } from '../scenario/lookup.js';
import type { ResolvedInput, Scenario } from '../scenario/scenario.js';
import { showQuantity } from '../scenario/units.js';
import type { Doubt } from './result.js';

/** A law's tails beyond these shares are off it. */
const TAIL = 0.001;

type Law = ResolvedInput['value'];

export function lawDoubts(scenario: Scenario, inFile: Scenario): readonly Doubt[] {
  const changed = scenario.changed.flatMap(({ path }) => {
    const [now, before] = [inputNamed(scenario, path), inputNamed(inFile, path)];
    return now === null || before === null ? [] : offLaw(now, before.value, 'the law in the file');
  });
  const standard = leafPaths().flatMap(({ path, entry }) => {
    const input = inputNamed(scenario, path);
    if (input === null || input.source === 'standard' || entry.shape !== 'quantity') return [];
    if (changed.some(({ code }) => code === codeOf(path))) return [];
    const usual = standardInput(entry);
    return usual === null ? [] : offLaw(input, usual.value, 'the usual law');
  });
  return [...changed, ...standard];
}

function codeOf(path: string): string {
  return `off its law: ${path}`;
}

function offLaw(input: ResolvedInput, law: Law, whose: string): readonly Doubt[] {
  if (law.form === 'fixed') return [];
  const [least, most] = [TAIL, 1 - TAIL].map((u) => quantileOf(law, u));
  const found = quantileOf(input.value, 0.5);
  if (found >= least && found <= most) return [];
  const bound = found < least ? least : most;
  const show = (si: number) => showQuantity(si, input, 3);
  const what = input.value.form === 'fixed' ? 'is' : 'has the median';
  return [
    {
      code: codeOf(input.path),
      found: found * input.perSi + input.offset,
      bound: bound * input.perSi + input.offset,
      unit: input.unit,
      text: `${input.path} ${what} ${show(found)}; ${whose} lies from ${show(least)} to ${show(most)}.`,
      advice: 'Look at its unit and digits; where it is right, write what shows it in a note.',
    },
  ];
}
