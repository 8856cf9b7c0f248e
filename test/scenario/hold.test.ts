import { describe, expect, it } from 'vitest';
import { createDrawer } from '../../sim/draws/drawer.js';
import { droppedCorrelations, holdInputs } from '../../sim/scenario/hold.js';
import { burdock } from '../ensemble/burdock.js';

const CORRELATED = 'correlations=[{between: [wind.speed, site.temperature], rank: 0.6}]';
const WIND = [{ path: 'wind.speed', value: 4 }];

describe('a scenario with inputs held', () => {
  it('has the hash of the file that says so', () => {
    const held = holdInputs(burdock(), [...WIND, { path: 'pad.wait', value: 1200 }]);
    expect(held.hash).toBe(burdock('wind.speed=4 m/s', 'pad.wait=20 min').hash);
    expect(held.hash).not.toBe(burdock().hash);
    expect(held.inputs.find(({ path }) => path === 'pad.wait')).toMatchObject({ written: '20 min', source: 'decided' });
  });

  it('leaves the draws of all other inputs as they were', () => {
    const [free, held] = [burdock(), holdInputs(burdock(), WIND)].map((scenario) => createDrawer(scenario, '1'));
    for (const id of [0, 5, 40]) {
      const before = structuredClone(free.draw('explore', id).inputs);
      const after = held.draw('explore', id).inputs;
      expect(after.wind.speed).toBe(4);
      expect({ ...after, wind: { ...after.wind, speed: before.wind.speed } }).toEqual(before);
    }
  });

  it('drops the rank correlations of what is held, so that its partner keeps its own distribution', () => {
    const scenario = burdock(CORRELATED);
    const held = holdInputs(scenario, WIND);
    expect([held.correlations, droppedCorrelations(scenario, ['wind.speed'])]).toEqual([[], scenario.correlations]);
    expect(createDrawer(held, '1').draw('explore', 3).inputs.site.temperature).toBeGreaterThan(280);
    expect(holdInputs(scenario, [{ path: 'pad.wait', value: 60 }]).correlations).toEqual(scenario.correlations);
  });

  it('throws for an input that the scenario does not have', () => {
    expect(() => holdInputs(burdock(), [{ path: 'parachute.diameter', value: 1 }])).toThrow('parachute.diameter');
  });
});
