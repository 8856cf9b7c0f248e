/** The worlds at a height are flown once, however often they are asked for. */

import type { Criterion } from '../decision/criteria.js';
import type { Drawer } from '../draws/drawer.js';
import type { Flyer } from '../ensemble/flyer.js';
import type { WorldsResult } from './decisions.js';
import { flyWorlds } from './worlds.js';

/** Null where nothing is unmeasured, so that there is one world alone; and when stopped before two were flown. */
export type WorldsAt = (height: number) => Promise<WorldsResult | null>;

export function hasUnmeasured(drawer: Drawer): boolean {
  return drawer.drawn.some(({ unmeasured }) => unmeasured);
}

export function createWorldsAt(flyer: Flyer, drawer: Drawer, groundImpact: Criterion, stop?: AbortSignal): WorldsAt {
  const known = new Map<number, WorldsResult | null>();
  return async (height) => {
    const found = known.get(height);
    if (found !== undefined) return found;
    const worlds = hasUnmeasured(drawer)
      ? await flyWorlds(flyer, height, groundImpact, undefined, undefined, stop)
      : null;
    known.set(height, worlds);
    return worlds;
  };
}
