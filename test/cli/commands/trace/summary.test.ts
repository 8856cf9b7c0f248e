import { expect, it } from 'vitest';
import { traceSummary } from '../../../../cli/commands/trace/summary.js';
import { traceResult } from '../../../../sim/trace/put-together.js';
import { traceFlight } from '../../../../sim/trace/trace-flight.js';
import { answered } from '../../../answers.js';
import { burdock } from '../../../ensemble/burdock.js';

it('gives each label of a touchdown its own figure', () => {
  const scenario = burdock();
  const one = traceResult({ scenario, overrides: [], seed: '1' }, answered(traceFlight(scenario, '1', '17@250')));
  const text = traceSummary(one, (_style, text) => text).join('\n');
  const column = (name: string) => (one.record[name as keyof typeof one.record] as number).toFixed(2);
  expect(text).toMatch(new RegExp(`touchdown speed +${column('touchdown_speed')} m/s`));
  expect(text).toMatch(new RegExp(`vertical +${column('vertical_speed')} m/s`));
  expect(text).toMatch(new RegExp(`horizontal +${column('horizontal_speed')} m/s`));
  expect(column('vertical_speed')).not.toBe(column('horizontal_speed'));
});
