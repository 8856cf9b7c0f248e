/** Set, number and height name a flight: "explore:17@250". */
import type { SetName } from '../draws/draw.js';

export interface FlightName {
  readonly set: SetName;
  readonly flight: number;
  readonly height: number;
}

const SETS: readonly SetName[] = ['explore', 'confirm', 'worlds'];
/** Over twice what the largest study holds (see study-size.ts); streams skip forward, so a far flight takes its time. */
const LAST_FLIGHT = 9_999_999;

export function flightId({ set, flight, height }: FlightName): string {
  return `${set}:${flight}@${height}`;
}

/** Reads "explore:17@250"; the set may be left out ("17@250": explore) and the height too ("17": the planned height). */
export function parseFlightId(text: string, plannedHeight: number): FlightName | null {
  const [, set = 'explore', number, height] =
    /^(?:([a-z]+):)?(\d{1,10})(?:@(\d+(?:\.\d+)?)(?:\s*m)?)?$/.exec(text.trim()) ?? [];
  const known = SETS.find((name) => name === set);
  const metres = height === undefined ? plannedHeight : Number(height);
  if (known === undefined || number === undefined || Number(number) > LAST_FLIGHT || !(metres > 0)) return null;
  return { set: known, flight: Number(number), height: metres };
}
