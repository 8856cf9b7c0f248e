import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openPart, resumeFrom } from '../../../../cli/commands/assess/part-files.js';
import { createUnfinished } from '../../../../cli/commands/assess/unfinished.js';
import { presentVersions } from '../../../../sim/basics/versions.js';
import { idsBetween } from '../../../../sim/ensemble/columns.js';
import { keepFlights } from '../../../../sim/ensemble/keep-flights.js';
import { createSerialFlyer } from '../../../../sim/ensemble/serial-flyer.js';
import { burdock } from '../../../ensemble/burdock.js';
import { fakeMaker } from '../../../ensemble/fake-maker.js';
import { emptyFolder } from '../../command-line.js';

const part = {
  versions: presentVersions(),
  scenario: burdock(),
  options: { seed: '1', flights: 50, heights: { kind: 'planned' }, overrides: [] },
  part: null,
  name: 'study',
} as const;

function unfinished(path: string | null) {
  const stop = new AbortController();
  let now = 0;
  const file = createUnfinished({ path, part, logbook: null, isOwn: false, stop: stop.signal, clock: () => now });
  const flyer = keepFlights(createSerialFlyer(fakeMaker(() => 5).maker), file.logbook, file.pause);
  return {
    file,
    stop,
    fly: (from: number, to: number) =>
      flyer.fly({ set: 'explore', ids: idsBetween(from, to), heights: [200], detail: 'full' }),
    wait: (seconds: number) => {
      now += seconds;
    },
  };
}

function flightsIn(path: string): number {
  const opened = openPart(path);
  if (opened.status === 'refused') throw new Error(opened.messages.join());
  return opened.value.entries.reduce((sum, { source }) => sum + source.flights, 0);
}

describe('the file of an unfinished study', () => {
  it('is written after a minute of flying, and each minute then, so that a kill costs no more', async () => {
    const path = join(emptyFolder(), 'study.part');
    const { file, fly, wait } = unfinished(path);
    await fly(0, 10);
    wait(59);
    await fly(10, 20);
    expect(existsSync(path)).toBe(false);
    wait(1);
    await fly(20, 30);
    expect(flightsIn(path)).toBe(30);
    await fly(30, 40);
    expect(flightsIn(path)).toBe(30);
    wait(60);
    await fly(40, 50);
    expect(flightsIn(path)).toBe(50);
    expect(file.saved()).toBe(path);
    await file.remove();
    expect(existsSync(path)).toBe(false);
  });

  it('is written at once when the study is stopped', async () => {
    const path = join(emptyFolder(), 'study.part');
    const { file, stop, fly } = unfinished(path);
    await fly(0, 10);
    stop.abort();
    await file.pause();
    expect(flightsIn(path)).toBe(10);
    const known = resumeFrom(path, part, null);
    if (known.status === 'refused') throw new Error(known.messages.join());
    const place = { set: 'explore', height: 200, changes: [] } as const;
    expect(known.value.missing(place, 'full', { from: 0, to: 50 })).toEqual([{ from: 10, to: 50 }]);
  });

  it('is not written where no files are, and leaves the file of somebody else', async () => {
    const { file, stop, fly, wait } = unfinished(null);
    wait(100);
    await fly(0, 10);
    stop.abort();
    await file.pause();
    await file.remove();
    expect(file.saved()).toBeNull();
    const path = join(emptyFolder(), 'study.part');
    const other = unfinished(path);
    await other.fly(0, 10);
    expect((await other.file.save(false)).status).toBe('ok');
    const before = readFileSync(path);
    await unfinished(path).file.remove();
    expect(readFileSync(path).equals(before)).toBe(true);
  });
});
