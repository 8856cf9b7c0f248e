import { expect } from 'vitest';
import { flyPart } from '../../../sim/assess/parts/fly-part.js';
import { type Bytes, partFile, readPart } from '../../../sim/assess/parts/part-file.js';
import type { AssessOptions } from '../../../sim/assess/plan.js';
import type { AssessMeans } from '../../../sim/assess/put-together.js';
import { presentVersions } from '../../../sim/basics/versions.js';
import type { Flyer } from '../../../sim/ensemble/flyer.js';
import { createLogbook, type Logbook } from '../../../sim/ensemble/logbook.js';
import type { Scenario } from '../../../sim/scenario/scenario.js';
import { answered } from '../../answers.js';

export function bytesOf(pieces: Iterable<Uint8Array>): Bytes {
  const all = Buffer.concat([...pieces]);
  return { size: all.length, read: (start, length) => all.subarray(start, start + length) };
}

/** Flies the parts, the last one first, each by itself, and enters what their files hold into one logbook. */
export async function flyInParts(
  scenario: Scenario,
  options: AssessOptions,
  of: number,
  means: () => Pick<AssessMeans, 'flyer' | 'criteria'>,
): Promise<Logbook> {
  const all = createLogbook();
  for (let number = of; number >= 1; number--) {
    const own = createLogbook();
    const flown = await flyPart(scenario, options, { number, of }, means(), { logbook: own });
    expect(flown).toEqual({ status: 'ok', value: true });
    const part = { versions: presentVersions(), scenario, options, part: { number, of }, whole: true, name: 'burdock' };
    const read = answered(readPart(bytesOf(partFile(part, own.entries()))));
    for (const entry of read.entries) expect(all.enter(entry)).toBe(true);
  }
  return all;
}

/** The same flyer, which counts the plain flights: neither of the worlds nor with an input held. */
export function countsPlain(flyer: Flyer): Flyer & { readonly plain: () => number } {
  let plain = 0;
  return {
    ...flyer,
    fly(batch, onFlown, stop) {
      if (batch.set !== 'worlds' && batch.changes === undefined) plain += batch.ids.length;
      return flyer.fly(batch, onFlown, stop);
    },
    plain: () => plain,
  };
}
