import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Part } from '../../../sim/assess/parts/part.js';
import { type Bytes, PART_FORMAT, partFile, readPart } from '../../../sim/assess/parts/part-file.js';
import { presentVersions } from '../../../sim/basics/versions.js';
import { idsBetween } from '../../../sim/ensemble/columns.js';
import { createLogbook, type Entry, inMemory } from '../../../sim/ensemble/logbook.js';
import { createSerialFlyer } from '../../../sim/ensemble/serial-flyer.js';
import { answered, refusalOf } from '../../answers.js';
import { burdock } from '../../ensemble/burdock.js';
import { fakeMaker } from '../../ensemble/fake-maker.js';

const part: Part = {
  versions: presentVersions(),
  scenario: burdock(),
  options: { seed: 'launch day', flights: 90, heights: { kind: 'standard' }, overrides: ['can.mass=610 g'] },
  part: { number: 2, of: 3 },
  whole: true,
  name: 'burdock',
};

async function entries(): Promise<readonly Entry[]> {
  const flyer = createSerialFlyer(fakeMaker(() => 10).maker);
  const fly = async (ids: Uint32Array, detail: 'causes' | 'outcomes') =>
    (await flyer.fly({ set: 'confirm', ids, heights: [200], detail }))[0];
  const place = { set: 'confirm', height: 200 } as const;
  const list = Uint32Array.of(3, 10, 27, 81);
  const changes = [{ path: 'wind.speed', quantile: 0.9 }];
  return [
    {
      ...place,
      changes: [],
      detail: 'causes',
      ids: { from: 30 },
      source: inMemory(await fly(idsBetween(30, 60), 'causes')),
    },
    { ...place, changes, detail: 'outcomes', ids: list, source: inMemory(await fly(list.subarray(0, 3), 'outcomes')) },
  ];
}

const bytes = entries().then((list) => Buffer.concat([...partFile(part, list)]));

function file(all: Uint8Array): Bytes {
  return { size: all.length, read: (start, length) => Buffer.from(all.subarray(start, start + length)) };
}

function messageOf(all: Uint8Array): string {
  return refusalOf(readPart(file(all))).join();
}

describe('the file of a part', () => {
  it('reads back to the same study and the same flights', async () => {
    const read = answered(readPart(file(await bytes)));
    expect(read.part).toEqual(part);
    const loaded = (list: readonly Entry[]) => list.map(({ source, ...rest }) => ({ ...rest, flown: source.load() }));
    expect(loaded(read.entries)).toEqual(loaded(await entries()));
  });

  it('is the same bytes again, written from what was read', async () => {
    const read = answered(readPart(file(await bytes)));
    const book = createLogbook();
    for (const entry of read.entries) book.enter(entry);
    expect(Buffer.concat([...partFile(read.part, book.entries())]).equals(await bytes)).toBe(true);
  });

  it('is refused in words wherever it was cut off', async () => {
    const all = await bytes;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: all.length - 1 }), (length) => {
        expect(messageOf(all.subarray(0, length))).toMatch(/^the file was cut off/);
      }),
    );
    expect(messageOf(all.subarray(0, 0))).toBe('the file is empty.');
  });

  it('is refused in words whichever byte is another', async () => {
    const all = await bytes;
    fc.assert(
      fc.property(fc.nat(all.length - 1), fc.integer({ min: 1, max: 255 }), (place, flip) => {
        const changed = Buffer.from(all);
        changed[place] ^= flip;
        expect(messageOf(changed)).toMatch(/damaged|cut off|no part of a study|reads form/);
      }),
    );
    expect(messageOf(Buffer.concat([all, Buffer.of(0)]))).toMatch(/damaged/);
  });

  it('is told from other files and from other forms', async () => {
    for (const text of ['x', '{"kind":"assess",', '{"name":"package"}', 'set,flight,\n', '\u0000\u0001'])
      expect(messageOf(Buffer.from(text))).toMatch(/no part of a study/);
    const text = (await bytes).toString('latin1').replace(`"format":${PART_FORMAT}`, '"format":99');
    expect(messageOf(Buffer.from(text, 'latin1'))).toMatch(/form 99 .*reads form 1/);
  });

  it('holds six bytes for an outcome and its speed, and four a column more', async () => {
    const head = (await bytes).indexOf('\n') + 1;
    // 30 flights in full with 21 columns; 4 ids and 3 flights of outcomes; the digest.
    expect((await bytes).length - head).toBe(30 * (2 + 4 * 21) + 4 * 4 + 3 * 6 + 32);
  });
});
