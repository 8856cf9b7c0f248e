/** The ordinary flight, every input at its median and no gusts: a craft that flies should land softly at least in that. */

import type { FlightDraw } from '../draws/draw.js';
import type { FlightModel } from '../flight/flight.js';
import { COLUMN_NAMES, type ColumnName, isSoft } from '../flight/record.js';
import type { Doubt } from './result.js';

export function ordinaryDoubts(nominal: FlightDraw, model: FlightModel): readonly Doubt[] {
  const { plan, criteria } = nominal.inputs;
  const doubts: Doubt[] = [];
  model.fly(nominal, [plan.throttle_up_height], (_, { outcome, values }) => {
    if (isSoft(outcome)) return;
    const flown = (name: ColumnName) => values[COLUMN_NAMES.indexOf(name)];
    const found = flown('touchdown_speed');
    if (!Number.isFinite(found)) return;
    const bound = criteria.vertical_speed;
    doubts.push({
      code: 'ordinary flight',
      found,
      bound,
      unit: 'm/s',
      text: `The simulated ordinary flight does not land softly: it comes down at ${found.toFixed(1)} m/s; the airframe survives ${bound.toFixed(1)} m/s downwards.`,
      advice: '`fallmargin trace` with `--flight nominal` shows where it goes wrong.',
    });
  });
  return doubts;
}
