/** Each figure of a flight over time has its finding and its numbers. */
import type { TraceResult } from '../../sim/trace/result.js';
import type { Draw } from '../kit/draw.js';
import { type Figure, figure, type LegendEntry } from '../kit/figure.js';
import { evenRows, table } from '../kit/table.js';
import { fixedText, numberText, withUnit } from '../kit/words/numbers.js';
import { type TimeLine, timeChart } from './over-time-chart.js';

/** Events and every step of one flight, as its trace has them. */
export type DrawnTrace = Pick<TraceResult, 'events' | 'history'>;

/** Rows in the table of a figure; the CSV file has them all. */
const TABLE_ROWS = 24;

export async function traceFigures(trace: DrawnTrace, draw: Draw): Promise<readonly Figure[]> {
  const flight = seriesOf(trace);
  const plans = [heightPlan(flight), speedPlan(flight), tiltPlan(flight), ...packPlans(flight)];
  const figures: Figure[] = [];
  for (const plan of plans) figures.push(await drawn(plan, flight, trace, draw));
  return figures;
}

interface Series {
  readonly time: readonly number[];
  of(column: string): readonly number[];
}

/** Column by column, up to where the numbers end: a flight that diverged has rows that hold none. */
function seriesOf({ history }: DrawnTrace): Series {
  const ends = Object.values(history).map((column) => column.indexOf(null));
  const end = Math.min(...ends.map((at) => (at === -1 ? Number.POSITIVE_INFINITY : at)));
  const of = (column: string) => {
    const values = history[column];
    if (values === undefined)
      throw new Error(`A trace has no column ${column}, only ${Object.keys(history).join(', ')}.`);
    return values.slice(0, end).map(Number);
  };
  return { time: of('time_s'), of };
}

interface Plan {
  readonly id: string;
  readonly title: string;
  readonly caption: string;
  readonly lines: readonly { readonly name: string; readonly values: readonly number[]; readonly dashed: boolean }[];
  readonly decimals: number;
  readonly zero: boolean;
  /** Rows that are shown, such as while the motors run. */
  readonly shown?: (index: number) => boolean;
}

function heightPlan({ time, of }: Series): Plan {
  const values = of('height_m');
  return {
    id: 'height',
    title: 'Height above ground, m',
    caption: `From ${withUnit(fixedText(values[0] ?? 0, 0), 'm')} above ground it takes ${withUnit(fixedText(time.at(-1) ?? 0, 1), 's')}.`,
    lines: [{ name: 'Height, m', values, dashed: false }],
    decimals: 1,
    zero: true,
  };
}

function speedPlan({ time, of }: Series): Plan {
  const fall = of('fall_speed_m_per_s');
  const fastest = fall.indexOf(Math.max(...fall));
  return {
    id: 'speed',
    title: 'Speed, m/s',
    caption: `It falls fastest after ${withUnit(fixedText(time[fastest] ?? 0, 1), 's')}, at ${withUnit(fixedText(fall[fastest] ?? 0, 1), 'm/s')}; its last fall speed is ${withUnit(fixedText(fall.at(-1) ?? 0, 1), 'm/s')}.`,
    lines: [
      { name: 'Fall speed, m/s', values: fall, dashed: false },
      { name: 'Speed over the ground, m/s', values: of('ground_speed_m_per_s'), dashed: true },
    ],
    decimals: 1,
    zero: true,
  };
}

function tiltPlan({ of }: Series): Plan {
  const values = of('tilt_deg');
  return {
    id: 'tilt',
    title: 'Tilt from upright, degrees',
    caption: `At the end it is tilted by ${withUnit(fixedText(values.at(-1) ?? 0, 0), 'deg')}; over 90\u00b0 its rotors point down.`,
    lines: [{ name: 'Tilt, \u00b0', values, dashed: false }],
    decimals: 0,
    zero: true,
  };
}

/** Voltage and current while the motors run; before that the model does not follow them. */
function packPlans({ of }: Series): readonly Plan[] {
  const [voltage, current] = [of('pack_voltage_V'), of('pack_current_A')];
  const running = (index: number) => voltage[index] > 0;
  const under = voltage.filter((_, index) => running(index));
  if (under.length < 2) return [];
  const least = Math.min(...under);
  const most = Math.max(...current.filter((_, index) => running(index)));
  return [
    {
      id: 'voltage',
      title: 'Pack voltage under load, V',
      caption: `While the motors run the pack sags to ${withUnit(fixedText(least, 2), 'V')}.`,
      lines: [{ name: 'Voltage, V', values: voltage, dashed: false }],
      decimals: 2,
      zero: false,
      shown: running,
    },
    {
      id: 'current',
      title: 'Pack current, A',
      caption: `It gives up to ${withUnit(numberText(most), 'A')}.`,
      lines: [{ name: 'Current, A', values: current, dashed: false }],
      decimals: 1,
      zero: true,
      shown: running,
    },
  ];
}

function drawn(plan: Plan, { time }: Series, { events }: DrawnTrace, draw: Draw): Promise<Figure> {
  const places = time.map((_, index) => index).filter((index) => plan.shown?.(index) ?? true);
  const lines = plan.lines.map(
    ({ values, dashed }): TimeLine => ({
      points: places.map((index) => ({ time: time[index], value: values[index] })),
      dashed,
    }),
  );
  const data = {
    title: plan.title,
    lines,
    events: events.map((event) => event.time).filter(Number.isFinite),
    end: Math.max(1, time.at(-1) ?? 1),
    zero: plan.zero,
  };
  const legend: LegendEntry[] =
    plan.lines.length < 2
      ? []
      : plan.lines.map(({ name, dashed }) => ({ symbol: dashed ? 'line-dashes' : 'line-circle', text: name }));
  const picked = evenRows(places.length, TABLE_ROWS).map((row) => places[row]);
  return figure(draw, {
    id: plan.id,
    caption: plan.caption,
    charts: [(frame) => timeChart(data, frame)],
    labels: [`${plan.title}, over time. ${plan.caption}`],
    legend,
    table: table(
      'Every so often; the CSV file beside this page has every step.',
      ['#Time after ejection, s', ...plan.lines.map(({ name }) => `#${name}`)],
      picked.map((index) => [
        fixedText(time[index], 2),
        ...plan.lines.map(({ values }) => fixedText(values[index], plan.decimals)),
      ]),
    ),
  });
}
