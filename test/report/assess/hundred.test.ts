import { describe, expect, test } from 'vitest';
import { hundredCells } from '../../../report/assess/hundred.js';

describe('A hundred flights', () => {
  test('never hide a rare failure: it is drawn small within a soft one, and said', () => {
    const cells = hundredCells({ soft: 7968, hard: 0, crash: 32, numerical: 0 });
    expect(cells.icons.filter((icon) => icon.symbol === 'icon-soft')).toHaveLength(100);
    expect(cells.icons.filter((icon) => icon.symbol === 'small-crash')).toHaveLength(1);
    expect(cells.label).toBe('Out of 100 flights: 100 land softly, fewer than 1 crash.');
    expect(cells.rareNote).toMatch(/fewer than 1 flight in 100/);
    expect(cells.legend[2].text).toBe('fewer than 1 in 100: crash (32 of all)');
  });

  test('say nothing of rarity where nothing is rare', () => {
    const cells = hundredCells({ soft: 90, hard: 6, crash: 4, numerical: 0 });
    expect(cells.rareNote).toBeNull();
    expect(cells.icons.map((icon) => icon.symbol).slice(89, 97)).toEqual([
      'icon-soft',
      ...new Array(6).fill('icon-hard'),
      'icon-crash',
    ]);
  });

  test('show flights that could not be computed, and count them as failed', () => {
    const cells = hundredCells({ soft: 0, hard: 0, crash: 1, numerical: 1 });
    expect(cells.label).toBe('Out of 100 flights: 50 crash, 50 could not be computed and count as failed.');
  });
});
