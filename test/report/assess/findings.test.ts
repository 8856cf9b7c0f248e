/** What the page says in words, held against results made for the purpose. */
import { describe, expect, test } from 'vitest';
import { chosenHistories, courseSection } from '../../../report/assess/course.js';
import { heightsSection } from '../../../report/assess/heights.js';
import { helpSection } from '../../../report/assess/help.js';
import { methodSection } from '../../../report/assess/method.js';
import { placeSection } from '../../../report/assess/place.js';
import { planTable } from '../../../report/assess/plan.js';
import { assuranceSentence, stoppingSentence } from '../../../report/assess/stopping-and-assurance.js';
import { threeHeights } from '../../../report/assess/three-heights.js';
import { verdictSection } from '../../../report/assess/verdict.js';
import { worldsSection } from '../../../report/assess/worlds.js';
import type { TippingResult, TippingRow } from '../../../sim/assess/decisions.js';
import type { HeightPoint } from '../../../sim/assess/result.js';
import { proportion, verdictOf } from '../../../sim/statistics/proportion.js';
import { makeResult } from './fixture.js';
import { DECISIONS } from './fixture-decisions.js';

const plain = (text: string) => text.replace(/[\u00a0\u202f]/g, ' ');
const noDraw = async () => '';
const base = makeResult({ flights: 500, heights: [250] });

function point(height: number, failures: number, flights = 8000): HeightPoint {
  const risk = proportion(failures, flights);
  return { ...base.curve[0], height, risk, verdict: verdictOf(risk, 0.05) };
}

async function curveCaption(...points: readonly HeightPoint[]): Promise<string> {
  const section = await heightsSection({ ...base, curve: points }, noDraw);
  return plain(section.figure.caption);
}

describe('The finding of the risk curve', () => {
  test('names both ends, the least risk, and the range that is within', async () => {
    expect(
      await curveCaption(point(60, 7900), point(160, 800), point(250, 240), point(310, 200), point(500, 2800)),
    ).toBe(
      'The risk is 98.8 % at 60 m, 2.5 % at 310 m, the least of the heights searched, and 35.0 % at 500 m; every limit is shown to be kept from 250 m to 310 m.',
    );
  });

  test('names heights one by one where the range has a gap', async () => {
    expect(await curveCaption(point(200, 240), point(250, 420), point(310, 200))).toMatch(
      /every limit is kept at 200 m, 310 m\.$/,
    );
  });

  test('says when no height serves, when all do, when nothing failed, and when one was flown', async () => {
    expect(await curveCaption(point(100, 4000), point(200, 800))).toMatch(
      /no height that was flown is shown to keep every limit/,
    );
    expect(await curveCaption(point(200, 240), point(250, 200))).toMatch(
      /every height that was flown keeps every limit/,
    );
    expect(await curveCaption(point(200, 0), point(250, 0))).toBe(
      'All of the flights at 200 m to 250 m landed softly; no failure seen is not none at all.',
    );
    expect(await curveCaption(point(250, 240))).toBe('Only 250 m was flown: 3.0 % (2.6 to 3.4 %), within the limit.');
  });
});

describe('A height with fewer flights than the study', () => {
  const few = {
    ...base,
    flights: 8000,
    curve: [point(100, 200, 300), { ...point(220, 6, 300), verdict: 'not shown' as const }, point(250, 240)],
  };

  test('is not shown as if it were a full one', async () => {
    const { figure, slider } = await heightsSection(few, noDraw);
    const rows = figure.table?.rows.map(({ cells }) => cells.at(-1));
    expect(rows?.map((one) => one?.text)).toEqual([
      'over the limit, given up early',
      'too few flights to judge',
      'within the limit',
    ]);
    expect(rows?.map((one) => one?.mark)).toEqual(['verdict-given-up', 'verdict-too-few', 'verdict-within']);
    expect(figure.legend.map(({ symbol }) => symbol)).toEqual([
      'verdict-within',
      'verdict-given-up',
      'verdict-too-few',
    ]);
    expect(plain(slider?.heights[1].line ?? '')).toBe(
      'about 2 flights in 100 do not land softly (of 300 flights only): too few flights to judge',
    );
  });

  test('does not count as the least risk', async () => {
    expect(plain((await heightsSection(few, noDraw)).figure.caption)).toMatch(
      /^The risk is 67 % at 100 m and 3\.0 % at 250 m;/,
    );
  });
});

describe('The height as something to do', () => {
  test('gives the planned one and the aim side by side, and not the lowest that serves', () => {
    const { columns, rows } = planTable({ ...base, ...DECISIONS });
    expect(columns.map(({ word, height }) => `${word} ${plain(height)}`)).toEqual(['Planned 250 m', 'Aim 280 m']);
    const row = (head: string) => rows.find((one) => one.head === head)?.cells.map(({ value }) => plain(value));
    expect(row('Order')?.[1]).toBe('Order full throttle when the height read aloud comes to 280 m.');
    expect(rows[1].cells[1]).toMatchObject({ value: '21.0\u00a0s', range: expect.stringContaining('18.3 to 23.7') });
    expect(row('Out of 100 flights')?.[1]).toBe('about 2 do not land softly, about 98 do');
  });

  test('gives the planned one alone where there is no aim, or it is the same, or it is not shown to serve', () => {
    expect(planTable(base).columns.map(({ word }) => word)).toEqual(['Planned']);
    const decided = (aim: object) =>
      ({
        ...DECISIONS.heightDecision,
        aim: { ...DECISIONS.heightDecision?.aim, ...aim },
      }) as typeof DECISIONS.heightDecision;
    const words = (aim: object) =>
      planTable({ ...base, ...DECISIONS, heightDecision: decided(aim) }).columns.map(({ word }) => word);
    expect(words({ height: 250 })).toEqual(['Planned, and the aim']);
    expect(words({ figure: { verdict: 'not shown' } })).toEqual(['Planned']);
  });
});

describe('What would help', () => {
  test('has plain names for draws, and says which side keeps the verdict', async () => {
    const section = await helpSection(
      {
        ...base,
        ...DECISIONS,
        drivers: {
          height: 220,
          flights: 8000,
          groups: [
            {
              cause: 'all',
              failures: 240,
              status: 'ranked',
              rows: [{ path: 'pilot.lapse#event', distance: 0.2, pValue: 0, flagged: true, crowds: 'high values' }],
            },
          ],
        },
      },
      noDraw,
    );
    const row = section?.drivers[0].rows[0];
    expect(row?.head.text).toBe('Lapse (pilot): whether it happens');
    expect(row?.cells[0].text).toBe('where it happens');
    expect(section?.tipping?.rows.map(({ cells }) => plain(cells[1].text))).toEqual([
      'the verdict holds up to 0.340 and has turned at 0.355',
      'the verdict holds up to 35.0 °C; further out it is not settled',
      'the verdict holds to the end of its plausible range',
    ]);
  });
});

describe('How wrong a guess may be', () => {
  const tipping = DECISIONS.tipping as TippingResult;
  const [row] = tipping.rows;
  const said = async (changes: Partial<TippingRow>) => {
    const rows = [{ ...row, ...changes }];
    const section = await helpSection({ ...base, tipping: { ...tipping, rows } }, noDraw);
    return [section?.tippingNote ?? '', section?.tipping?.rows[0].cells ?? []] as const;
  };

  test('claims no more than the flights show', async () => {
    const words = async (changes: Partial<TippingRow>) => plain((await said(changes))[1][1].text);
    expect(await words({ keeps: null })).toBe(
      'the verdict has turned at 0.355; nearer to the median it is not settled',
    );
    expect(await words({ keeps: null, turned: null })).toBe('not settled');
    const holds = { status: 'holds', crossing: null, turned: null } as const;
    expect(await words(holds)).toBe('the verdict holds up to 0.340; further out it is not settled');
    expect(await words({ ...holds, keeps: null })).toBe('not settled');
    const not = { status: 'not on this side', crossing: null, keeps: null } as const;
    expect(await words(not)).toBe('already on the other side at its middle value');
    expect(await words({ ...not, turned: null })).toMatch(/^not settled: .* at its middle value$/);
    expect(plain((await said({}))[1][2].text)).toBe('8.1 % (6.4 to 10.2 %)');
  });

  test('says from which flights it is, and which guesses were held', async () => {
    expect(plain((await said({}))[0])).toMatch(
      /Read off the 16 000 flights at that height, in each of which every guess was drawn anew/,
    );
    expect((await said({}))[0]).not.toContain('held in flights');
    expect((await said({ flights: 500 }))[0]).toContain('were held in flights of their own');
  });
});

describe('The verdict', () => {
  const at = async (failures: number, flights: number, more: object = {}) => {
    const risk = proportion(failures, flights);
    const verdict = verdictOf(risk, 0.05);
    const section = await verdictSection({ ...base, risk, verdict, overall: verdict, ...more }, noDraw);
    return { sentence: plain(section.sentence), basis: plain(section.basis), settle: plain(section.settle ?? '') };
  };

  test('is one of three sentences with the limit in it', async () => {
    expect((await at(240, 8000)).sentence).toBe(
      'Throttling up at 250 m keeps the risk of not landing softly within the acceptable 5 %. How firmly is not known.',
    );
    expect((await at(800, 8000)).sentence).toBe(
      'Throttling up at 250 m is too risky: more than the acceptable 5 % of flights do not land softly. How firmly is not known.',
    );
    expect((await at(4, 100)).sentence).toBe(
      'It is not shown that throttling up at 250 m keeps the risk within the acceptable 5 %.',
    );
  });

  test('rests on the interval and its upper end, rounded to the safe side', async () => {
    expect((await at(240, 8000)).basis).toBe(
      'Risk of ground impact: 3.0 % (2.6 to 3.4 %), from 8000 flights. If the model and its inputs are right, one may be 95 % sure that the risk is at most 3.4 %; that upper end decides.',
    );
  });

  test('that is above the limit rests on the lower end', async () => {
    expect((await at(800, 8000)).basis).toBe(
      'Risk of ground impact: 10.0 % (9.4 to 10.6 %), from 8000 flights. If the model and its inputs are right, one may be 95 % sure that the risk is at least 9.4 %, over the acceptable 5 %.',
    );
  });

  test('with no failure speaks of none in so many, and up to how many', async () => {
    expect((await at(0, 8000)).basis).toMatch(/^Risk of ground impact: none in 8000; up to 3 in 8000\. /);
  });

  test('that is not shown says what would settle it', async () => {
    expect((await at(4, 100, { flightsToSettle: 41_234 })).settle).toBe(
      'If the risk is as estimated, about 42 000 flights would settle it.',
    );
    expect((await at(4, 100, { flightsToSettle: null })).settle).toMatch(/change the plan, not the number of flights/);
  });

  test('names the criterion that decides when it is not ground impact', async () => {
    const criteria = [
      { name: 'ground impact', limit: 0.05, risk: proportion(240, 8000), verdict: 'within' as const },
      { name: 'outside the recovery circle', limit: 0.05, risk: proportion(900, 8000), verdict: 'above' as const },
    ];
    const { sentence } = await at(240, 8000, { overall: 'above', criteria });
    expect(sentence).toBe(
      'Throttling up at 250 m breaks a limit: outside the recovery circle. How firmly is not known.',
    );
  });
});

describe('The three heights', () => {
  test('are silent without a decision', () => {
    expect(threeHeights(base)).toBeNull();
  });

  test('are named, each with what it is, and the plan against them', () => {
    const said = threeHeights({ ...base, ...DECISIONS });
    expect(plain(said?.sentence ?? '')).toBe(
      'The planned 250 m lies inside the window of 220 m to 320 m; moving to the aim of 280 m would save about 0.7 flights in 100 (0.4 to 1.0).',
    );
    expect(said?.heights.map(({ word, text }) => `${word}: ${plain(text)}`)).toEqual([
      'Aim: 280 m: risk 2.3 % (1.9 to 2.6 %) on 8000 fresh flights. From 240 m to 320 m the smoothed risk differs from the least by half a flight in 100 or less; of these heights the aim is the most central with at most a tenth of a flight over the least.',
      'At the latest: 220 m: risk 3.1 % (2.8 to 3.5 %) on 8000 fresh flights. The lowest height shown to keep every limit, together with the next step up: the riskiest that is still acceptable.',
      'Not before: 320 m, the highest height shown to keep every limit; at 400 m that is not shown.',
    ]);
    expect(plain(said?.detail ?? '')).toBe(
      'Shown to keep every limit at 220, 230, 250, 280, 320 m; heights between them were not judged.',
    );
  });

  test('say "from .. to" only where every step between was judged, and to keep a plan that loses nothing', () => {
    const whole = { ...DECISIONS.heightDecision?.window, isWhole: true };
    const plan = {
      place: 'inside',
      toAim: {
        ...DECISIONS.heightDecision?.plan?.toAim,
        lower: -0.002,
        upper: 0.003,
        verdict: 'no difference that matters',
      },
    };
    const heightDecision = { ...DECISIONS.heightDecision, window: whole, plan } as typeof DECISIONS.heightDecision;
    const said = threeHeights({ ...base, ...DECISIONS, heightDecision });
    expect(plain(said?.detail ?? '')).toBe('Shown to keep every limit from 220 m to 320 m, at every step.');
    expect(plain(said?.sentence ?? '')).toMatch(
      /no difference that matters \(.0\.2 to 0\.3 flights in 100\): keep your plan\.$/,
    );
  });

  test('name none where no height serves or none is shown', () => {
    const decision = { ...DECISIONS.heightDecision, latest: null, window: null, aim: null, plan: null };
    for (const status of ['none serves', 'not shown'] as const) {
      const said = threeHeights({
        ...base,
        heightDecision: { ...decision, status } as typeof DECISIONS.heightDecision,
      });
      expect(said?.sentence).toMatch(/^No height (?:serves|is shown to serve)/);
      expect(said?.heights).toEqual([]);
      expect(plain(said?.detail ?? '')).toMatch(/250 m, picked from many .*ground impact 2\.6 % \(2\.3 to 3\.0 %\)/);
    }
  });

  test('says by how much the best height misses the limit, and what would help most', () => {
    const criterion = { name: 'ground impact', limit: 0.05, risk: proportion(640, 8000), verdict: 'above' as const };
    const least = { ...DECISIONS.heightDecision?.least, height: 300, criteria: [criterion] };
    const heightDecision = { ...DECISIONS.heightDecision, status: 'none serves', latest: null, window: null, least };
    const result = { ...base, ...DECISIONS, aim: null, heightDecision } as typeof base;
    expect(plain(threeHeights(result)?.detail ?? '')).toBe(
      'The best height seen is 300 m, picked from many and so a little flattered: ground impact 8.0 % (7.5 to 8.6 %), acceptable 5 %: about 3.0 flights in 100 too many. Change the design, the cue or the day: the height alone does not do it. At 250 m most would be gained by the reaction (pilot) at its better end: 0.8 flights saved in 100 (0.6 to 1.0).',
    );
  });
});

describe('What nobody has measured', () => {
  test('is given with ends of one digit beside the interval from sampling', async () => {
    const worlds = { ...DECISIONS.worlds, height: 250 } as typeof DECISIONS.worlds;
    const section = await worldsSection({ ...base, risk: proportion(250, 8000), worlds }, noDraw);
    expect(plain(section?.figure.caption ?? '')).toBe(
      'At 250 m the risk is 3.1 % (2.8 to 3.5 % from sampling); what nobody has measured could make it 1 to 9 %. In about 68 of 100 plausible worlds (55 to 79) this height is within the acceptable 5 %.',
    );
  });

  test('is not made up where the worlds do not differ', async () => {
    const worlds = {
      ...DECISIONS.worlds,
      status: 'not distinguishable from none',
      lower: null,
      upper: null,
      shareWithin: null,
    } as typeof DECISIONS.worlds;
    const section = await worldsSection({ ...base, worlds }, noDraw);
    expect(section?.figure.caption).toMatch(/do not differ by more than chance/);
  });
});

describe('What was asked for', () => {
  test('is said with what was found', () => {
    expect(plain(assuranceSentence({ ...base, ...DECISIONS }) ?? '')).toBe(
      'Demanded: 250 m is within every limit, and in at least 90 % of plausible worlds within the acceptable risk; found are about 82 of 100 (71 to 90): not met.',
    );
    expect(plain(stoppingSentence({ ...base, ...DECISIONS }) ?? '')).toBe(
      'Flown until the interval was as narrow as \u00b10.50 in 100: after 8000 flights it is \u00b10.48 in 100. When it stops depends on the width alone, not on the verdict.',
    );
    expect([assuranceSentence(base), stoppingSentence(base)]).toEqual([null, null]);
  });
});

describe('Where it comes down', () => {
  test('rounds the distance to keep away from upwards, in steps of ten metres', async () => {
    const footprint = { ...base.footprint, keepAway: { distance: 401.2, upper: 433 }, beyond: { soft: 3, notSoft: 0 } };
    const section = await placeSection({ ...base, footprint }, noDraw);
    expect(plain(section.figure.caption)).toBe(
      'Failed flights are the hazard: 99 of 100 of them come down within 410 m of the planned landing point (up to 440 m within the interval), soft landings mostly nearer. 3 flights come down outside the map, softly.',
    );
  });
});

describe('The flights drawn over time', () => {
  test('are different stories: the worst, typical ones, and soft ones', () => {
    const flight = (why: string, outcome: 'soft' | 'crash') => ({ ...base.histories[0], why, outcome });
    const chosen = chosenHistories([
      flight('hits hardest', 'crash'),
      flight('among the hardest hits', 'crash'),
      flight('typical of "lapse"', 'crash'),
      flight('typical of "arm shut"', 'crash'),
      flight('typical of "reaction"', 'crash'),
      flight('soft, but arrested lowest', 'soft'),
      flight('an ordinary soft landing', 'soft'),
    ]);
    expect(chosen.map(({ why }) => why)).toEqual([
      'hits hardest',
      'typical of "lapse"',
      'typical of "arm shut"',
      'soft, but arrested lowest',
      'an ordinary soft landing',
    ]);
  });
});

describe('The command that repeats the study', () => {
  test('of one flight names its seed and what was changed too', async () => {
    const section = await courseSection({ ...base, seed: '7', overrides: ['can.mass=590 g'] }, noDraw);
    expect(section.traceCommand).toBe(
      `fallmargin trace burdock.yaml --flight explore:17@250 --seed 7 --set 'can.mass=590 g'`,
    );
  });

  test('names heights only where the user chose them', async () => {
    const curve = [point(200, 300), point(250, 240)];
    const commandOf = async (more: object) => (await methodSection({ ...base, curve, ...more }, noDraw)).command;
    expect(await commandOf({})).toMatch(/ --heights 200,250 /);
    expect(await commandOf(DECISIONS)).toBe(
      "fallmargin assess burdock.yaml --until 0.5% --assurance 90% --seed 1 --set 'pilot.lapse=3 %'",
    );
  });

  test('quotes what a shell would take apart and names no path of any machine', async () => {
    const section = await methodSection({ ...base, seed: "o'clock 7", overrides: ['can.mass=590 g'] }, noDraw);
    expect(section.command).toBe(
      `fallmargin assess burdock.yaml --flights 500 --heights planned --seed 'o'\\''clock 7' --set 'can.mass=590 g'`,
    );
  });
});
