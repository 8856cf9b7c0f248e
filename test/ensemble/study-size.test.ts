import { describe, expect, it } from 'vitest';
import { bytesPerFlight, studySize } from '../../sim/ensemble/study-size.js';

describe('the size of a study', () => {
  it('is at most 250 bytes a flight for the standard ten heights', () => {
    expect(bytesPerFlight(10)).toBeLessThanOrEqual(250);
  });

  it('allows a million flights at ten heights', () => {
    expect(studySize(1e6, 10).status).toBe('ok');
  });

  it('refuses a billion flights with the reason, an estimate and what to ask for instead', () => {
    const size = studySize(1e9, 10);
    expect(size).toMatchObject({
      status: 'refused',
      messages: [expect.stringMatching(/140 GB.*days.*at most \d+ flights/)],
    });
  });

  it('names a number of flights that it then allows', () => {
    const size = studySize(1e9, 10);
    const most = size.status === 'refused' ? Number(/at most (\d+) flights/.exec(size.messages[0])?.[1]) : 0;
    expect(most).toBeGreaterThan(1e6);
    expect(studySize(most, 10).status).toBe('ok');
  });
});
