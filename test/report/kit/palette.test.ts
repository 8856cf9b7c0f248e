import { describe, expect, test } from 'vitest';
import { type ColourName, DARK, LIGHT } from '../../../report/kit/palette.js';

type Triple = readonly [number, number, number];

function linear(hex: string): Triple {
  const channel = (from: number) => {
    const value = Number.parseInt(hex.slice(from, from + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  };
  return [channel(1), channel(3), channel(5)];
}

function luminance([red, green, blue]: Triple): number {
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

/** Contrast ratio of WCAG 2.2, "relative luminance". */
function contrast(one: string, other: string): number {
  const [dark, light] = [luminance(linear(one)), luminance(linear(other))].sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

function apply(matrix: readonly Triple[], colour: Triple): Triple {
  const [red, green, blue] = matrix.map((row) => row[0] * colour[0] + row[1] * colour[1] + row[2] * colour[2]);
  return [red, green, blue].map((value) => Math.min(1, Math.max(0, value))) as unknown as Triple;
}

/** CIE L*a*b*, D65. */
function lab(colour: Triple): Triple {
  const [x, y, z] = [
    (0.4124 * colour[0] + 0.3576 * colour[1] + 0.1805 * colour[2]) / 0.9505,
    luminance(colour),
    (0.0193 * colour[0] + 0.1192 * colour[1] + 0.9505 * colour[2]) / 1.089,
  ].map((t) => (t > (6 / 29) ** 3 ? Math.cbrt(t) : t / (3 * (6 / 29) ** 2) + 4 / 29));
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

function distance(one: Triple, other: Triple): number {
  return Math.hypot(...one.map((value, i) => value - other[i]));
}

/** Machado, Oliveira and Fernandes, IEEE TVCG 15:1291, 2009, severity 1.0, on linear RGB (from memory). */
const EYES: Readonly<Record<string, readonly Triple[]>> = {
  'common colour vision': [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const PALETTES: readonly (readonly [string, Readonly<Record<ColourName, string>>])[] = [
  ['light', LIGHT],
  ['dark', DARK],
];

describe.each(PALETTES)('The %s palette', (_, palette) => {
  test('keeps text readable: 4.5 to 1 and more (WCAG 2.2, 1.4.3)', () => {
    for (const ground of ['paper', 'raised'] as const) {
      for (const text of ['ink', 'quiet', 'accent'] as const) {
        expect(contrast(palette[text], palette[ground]), `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
      }
    }
    expect(contrast(palette['notice-ink'], palette.notice)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette.ink, palette['accent-tint'])).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette.accent, palette['accent-tint'])).toBeGreaterThanOrEqual(4.5);
  });

  test('keeps the edges of symbols and bars visible: 3 to 1 and more (WCAG 2.2, 1.4.11)', () => {
    for (const edge of ['soft-edge', 'hard-edge', 'crash-edge', 'numerical-edge', 'edge'] as const) {
      expect(contrast(palette[edge], palette.paper), edge).toBeGreaterThanOrEqual(3);
    }
  });

  test('keeps outcomes apart in grey by 18 steps of lightness and more', () => {
    const grey = (['soft', 'hard', 'crash'] as const)
      .map((name) => lab(linear(palette[name]))[0])
      .sort((a, b) => a - b);
    expect(grey[1] - grey[0]).toBeGreaterThan(18);
    expect(grey[2] - grey[1]).toBeGreaterThan(18);
  });

  test.each(Object.entries(EYES))('keeps outcomes apart for %s', (_name, matrix) => {
    const seen = (['soft', 'hard', 'crash'] as const).map((name) => lab(apply(matrix, linear(palette[name]))));
    expect(distance(seen[0], seen[1])).toBeGreaterThan(25);
    expect(distance(seen[1], seen[2])).toBeGreaterThan(25);
    expect(distance(seen[0], seen[2])).toBeGreaterThan(25);
  });
});

test('Both palettes have the same colours', () => {
  expect(Object.keys(DARK)).toEqual(Object.keys(LIGHT));
});
