/**
 * A thrust stand gives full thrust, power and the pack's resistance; a chart shows what each straight line leaves
 * over.
 */
import type { Residual, ThrustStandFit } from '../../sim/fit/result.js';
import { aboveAxis, chartBase, type Frame } from '../kit/chart-style.js';
import type { ChartSpec, Draw } from '../kit/draw.js';
import { type Figure, figure } from '../kit/figure.js';
import { colour } from '../kit/palette.js';
import { evenRows, type Table, table } from '../kit/table.js';
import { numberText } from '../kit/words/numbers.js';
import type { EvidenceSection } from '../page/evidence.js';

/** Rows of a table on the page. */
const MOST_ROWS = 30;

interface ResidualWords {
  readonly across: string;
  readonly up: string;
}

export async function thrustSection(result: ThrustStandFit, draw: Draw): Promise<EvidenceSection> {
  const { full, pack, exponent, partThrottle, rotors } = result;
  const gf = (newtons: number, digits = 3) => numberText(newtons / 9.80665e-3, digits);
  const error = (value: number | null, text: (one: number) => string) => (value === null ? '' : ` ± ${text(value)}`);
  const figures: Figure[] = [];
  const add = async (id: string, caption: string, residuals: readonly Residual[], words: ResidualWords) =>
    figures.push(
      await figure(draw, {
        id,
        caption,
        charts: [(frame) => residualChart(residuals, words, frame)],
        labels: [caption],
        table: residualTable(residuals, words),
      }),
    );
  if (pack !== null) {
    const caption = `Voltage less the straight line of ${numberText(1000 * pack.resistance.value)} mohm: no order among the points means that resistance is all there is.`;
    await add('pack', caption, pack.residuals, { across: 'Current, A', up: 'Left over, V' });
  }
  if (exponent !== null) {
    const caption = `Full-throttle thrust less voltage to the power ${numberText(exponent.value.value)}.`;
    await add('exponent', caption, exponent.residuals, { across: 'Voltage, V', up: 'Left over, N' });
  }
  if (partThrottle.length > 0) {
    const caption =
      'Power under full throttle less full power times (thrust over full thrust) to the power 1.5, which the model takes.';
    await add('part', caption, partThrottle, { across: 'Thrust over full thrust', up: 'Left over, W' });
  }
  const resistance =
    pack === null
      ? ''
      : ` The pack with its leads: ${numberText(1000 * pack.resistance.value)}${error(pack.resistance.error, (one) => numberText(1000 * one, 2))} mohm.`;
  const power =
    exponent === null
      ? ''
      : ` Thrust goes with voltage to the power ${numberText(exponent.value.value)}${error(exponent.value.error, (one) => numberText(one, 2))}.`;
  return {
    id: 'answer',
    title: 'What the stand says',
    paragraphs: [
      `${rotors === 1 ? 'The rotor' : `One of ${rotors} rotors`} at full throttle: ${gf(full.thrust.value)}${error(full.thrust.error, (one) => gf(one, 2))} gf and ${numberText(full.power.value)}${error(full.power.error, (one) => numberText(one, 2))} W at ${numberText(full.voltage)} V (${full.rows} of ${result.rows} rows).${power}${resistance}`,
      "The figures behind the plus-minus signs are standard errors, widened by Student's t for few rows.",
    ],
    figures,
  };
}

function residualTable(residuals: readonly Residual[], { across, up }: ResidualWords): Table {
  const unit = up.replace(/^.*, /, '');
  return table(
    'Row by row: measured, fitted, and what is left over.',
    ['#Line of the file', `#${across}`, `#Measured, ${unit}`, `#Fitted, ${unit}`, `#${up}`],
    evenRows(residuals.length, MOST_ROWS).map((i) => {
      const { line, x, measured, fitted } = residuals[i];
      return [
        String(line),
        numberText(x),
        numberText(measured, 4),
        numberText(fitted, 4),
        numberText(measured - fitted, 2),
      ];
    }),
  );
}

/** Measured minus fitted. */
function residualChart(residuals: readonly Residual[], words: ResidualWords, frame: Frame): ChartSpec {
  const values = residuals.map(({ x, measured, fitted }) => ({ x, rest: measured - fitted }));
  const x = {
    type: 'quantitative',
    scale: { zero: false, nice: true },
    axis: { title: words.across, tickCount: frame.narrow ? 4 : 7 },
  } as const;
  const y = { type: 'quantitative', axis: { ...aboveAxis(words.up), tickCount: 4 } } as const;
  return {
    ...chartBase(frame, 180),
    layer: [
      {
        data: { values: [{ zero: 0 }] },
        mark: { type: 'rule', stroke: colour('quiet'), strokeDash: [4, 3] },
        encoding: { y: { ...y, field: 'zero' } },
      },
      {
        data: { values },
        mark: { type: 'point', filled: true, size: 40, opacity: 1, fill: colour('accent') },
        encoding: { x: { ...x, field: 'x' }, y: { ...y, field: 'rest' } },
      },
    ],
  };
}
