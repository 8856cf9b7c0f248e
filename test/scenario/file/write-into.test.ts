import { describe, expect, it } from 'vitest';
import { type Entry, writeInto } from '../../../sim/scenario/file/write-into.js';
import { BASE, memoryFiles } from './memory-files.js';

const PIECE = {
  'log-normal': { median: '1.1 s', spread: 0.3 },
  kind: 'varies from flight to flight',
  source: 'measured',
  note: 'bench: 24 values',
};

function write(text: string, path = 'pilot.reaction', piece: Entry['piece'] = PIECE): string {
  const made = writeInto('it.yaml', [{ path, piece }], memoryFiles({ 'it.yaml': text, 'base.yaml': BASE }));
  if (made.status === 'refused') throw new Error(made.messages.join('\n'));
  return made.value;
}

/** Lines of a that are not in b, as often as they are there. */
function missing(a: string, b: string): readonly string[] {
  const left = b.split('\n');
  return a.split('\n').filter((line) => {
    const at = left.indexOf(line);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

describe('writing into a scenario', () => {
  it('changes the entry and no other line', () => {
    const after = write(BASE);
    expect(missing(BASE, after)).toEqual([
      '    log-normal: { median: 1.18 s, spread: 0.44 }',
      '    note: a surprised driver braking',
      '    source: guess', // one of many, so the last one is missed
    ]);
    expect(missing(after, BASE)).toEqual([
      '    log-normal: { median: 1.1 s, spread: 0.3 }',
      '    source: measured',
      '    note: "bench: 24 values"',
    ]);
  });

  it('keeps every comment of the file, also those inside the entry', () => {
    const text = BASE.replace(
      '    log-normal: { median: 1.18 s',
      '    # from the video\n    log-normal: { median: 1.18 s',
    ).replace('    note: a surprised driver braking', '    note: a surprised driver braking # see the table');
    const after = write(text);
    for (const comment of text.match(/#.*$/gm) ?? []) expect(after).toContain(comment.trim());
  });

  it('keeps the comment behind a value on one line', () => {
    const after = write(BASE, 'link.outage_length', { value: '2 s', source: 'measured' });
    expect(after).toContain(
      '  outage_length: # mean; each is drawn from an exponential law\n    value: 2 s\n    source: measured\n',
    );
  });

  it('keeps the comment beside the key of a section', () => {
    const after = write(BASE, 'wind.speed', { value: '3 m/s', source: 'measured' });
    expect(after).toContain('  speed: # 10 m above ground\n    value: 3 m/s\n');
  });

  it('adds what the file does not say, in its section or in a new one', () => {
    const variant = 'extends: base.yaml\ntitle: Variant\n\npilot:\n  lapse: 1 % # practised\n';
    expect(write(variant)).toBe(
      `${variant.trimEnd()}\n  reaction:\n    log-normal: { median: 1.1 s, spread: 0.3 }\n    kind: varies from flight to flight\n    source: measured\n    note: "bench: 24 values"\n`,
    );
    expect(write('extends: base.yaml\ntitle: Variant\n', 'pilot.call_out.latency', { value: '0.4 s' })).toBe(
      'extends: base.yaml\ntitle: Variant\n\npilot:\n  call_out:\n    latency:\n      value: 0.4 s\n',
    );
  });

  it('writes inside braces', () => {
    expect(write('extends: base.yaml\npilot: { lapse: 1 % }\n')).toContain(
      'pilot: { lapse: 1 %, reaction: { log-normal:',
    );
    expect(write('extends: base.yaml\npilot: { reaction: 1 s, lapse: 1 % }\n')).toMatch(
      /reaction: \{ log-normal.*\}, lapse: 1 % \}/,
    );
  });

  it('leaves the file alone where it would not be read afterwards', () => {
    const files = memoryFiles({ 'it.yaml': BASE });
    const made = writeInto('it.yaml', [{ path: 'pilot.reaction', piece: { value: '-3 s' } }], files);
    expect(made).toMatchObject({
      status: 'refused',
      messages: [expect.stringMatching(/left as it is/), expect.stringMatching(/below 0/)],
    });
    expect(writeInto('no.yaml', [], files).status).toBe('refused');
  });
});
