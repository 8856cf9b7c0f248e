import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/**
 * What the model leaves out is told in three places: in full in MODEL.md, in short on the page of a report, and in one
 * sentence of the README. This list holds all three: each effect with the words that name it there, null where that place
 * is silent about it. MODEL.md is silent about none.
 */
const LEFT_OUT: readonly Effect[] = [
  { model: 'ground effect', page: 'Ground effect', readme: 'ground effect' },
  { model: 'gyroscopic moments of the rotors', page: 'gyroscopic torques of the rotors', readme: null },
  {
    model: 'wash of the rotors on the can',
    page: "the rotors' wash on the can",
    readme: 'the wash of the rotors on the can',
  },
  {
    model: 'shift of the centre of mass by a shut arm',
    page: 'the shift of the centre of mass by a shut arm',
    readme: null,
  },
  { model: 'flexing, play and twist of the arms', page: null, readme: null },
  { model: 'rotor response over more than one lag', page: null, readme: null },
  { model: 'drag of the open can as flat plates and cylinders at angle', page: null, readme: null },
  { model: 'moist air', page: 'moist air', readme: null },
  { model: 'thermals, wind turning with height', page: null, readme: null },
  { model: "the pack's own ageing", page: null, readme: null },
  { model: "a wrong temperature in the altimeter's formula; its lag beyond `latency`", page: null, readme: null },
  { model: 'the rocket: off-vertical launch, drift before ejection', page: null, readme: "the rocket's ascent" },
  { model: 'the height of the legs, terrain', page: null, readme: null },
  { model: 'slopes, trees, buildings, birds', page: 'Slopes, trees, buildings, birds', readme: null },
  { model: 'collisions', page: null, readme: 'collisions' },
  { model: 'icing', page: 'icing', readme: 'icing' },
  { model: 'rain', page: 'rain', readme: null },
  {
    model: 'damage in flight beyond the ejection shock and the hardware chances of the scenario',
    page: 'damage in flight beyond the ejection shock and the hardware chances of the scenario',
    readme: null,
  },
  { model: 'what happens after touchdown', page: 'what happens after touchdown', readme: null },
  { model: 'people on the ground', page: null, readme: 'people' },
  { model: 'a pilot who learns, tires, panics', page: null, readme: null },
];

interface Effect {
  readonly model: string;
  readonly page: string | null;
  readonly readme: string | null;
}

/** The names of the effects: the first column of the table in MODEL.md. */
const model = between(readFileSync('sim/MODEL.md', 'utf8'), '| left out | size and direction |\n|---|---|\n', '\n\n')
  .split('\n')
  .map((row) => row.split('|')[1].trim());

/** The list on the page, without what it says of sizes in brackets and without its last item, which is about inputs. */
const page = between(
  readFileSync('report/assess/method.hbs', 'utf8'),
  '<h3>What the model leaves out</h3>\n<ul>\n',
  '</ul>',
)
  .split('\n')
  .slice(0, 2)
  .map((item) =>
    item
      .replace(/<\/?li>/g, '')
      .replace(/ \([^)]*\)/g, '')
      .replace(/\.$/, ''),
  )
  .join('; ');

const readme = between(readFileSync('README.md', 'utf8').replaceAll('\n', ' '), 'It does not simulate ', '.');

function between(text: string, begin: string, end: string): string {
  const from = text.indexOf(begin);
  const to = text.indexOf(end, from + begin.length);
  if (from === -1 || to === -1) throw new Error(`not found: ${begin}`);
  return text.slice(from + begin.length, to);
}

/** What is left of a list when the names, and what joins them, are taken out. */
function unnamed(list: string, names: readonly (string | null)[]): string {
  const longestFirst = names.filter((name) => name !== null).sort((a, b) => b.length - a.length);
  return longestFirst.reduce((left, name) => left.replace(name, ''), list).replace(/[,;]|\b(?:or|and)\b|\s/g, '');
}

describe('what the model leaves out', () => {
  it.each(LEFT_OUT)('holds "$model" under the same names in all three places', (effect) => {
    expect(model.some((row) => row.includes(effect.model))).toBe(true);
    if (effect.page !== null) expect(page).toContain(effect.page);
    if (effect.readme !== null) expect(readme).toContain(effect.readme);
  });

  it('has no row in MODEL.md that the list does not know', () => {
    expect(model.length).toBeGreaterThan(10);
    expect(model.filter((row) => !LEFT_OUT.some((effect) => row.includes(effect.model)))).toEqual([]);
  });

  it('has no item on the page or in the README that the list does not know', () => {
    expect(
      unnamed(
        page,
        LEFT_OUT.map((effect) => effect.page),
      ),
    ).toBe('');
    expect(
      unnamed(
        readme,
        LEFT_OUT.map((effect) => effect.readme),
      ),
    ).toBe('');
  });
});
