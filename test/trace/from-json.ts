/** A flight's inputs and noise from the text of `trace --json` alone, as a program that knows nothing of this one would read it. */
import type { FlightDraw, NoiseSeries } from '../../sim/draws/draw.js';
import type { FlightInputs } from '../../sim/scenario/definition/definition.js';

export interface WrittenFlight {
  readonly id: string;
  readonly height: number;
  readonly outcome: string;
  readonly scenario: { readonly leftOut: readonly string[] };
  readonly inputs: readonly { readonly path: string; readonly value: unknown }[];
  readonly noise: readonly {
    readonly name: string;
    readonly step: number | null;
    readonly values: readonly (readonly number[])[];
  }[];
  readonly record: Readonly<Record<string, number | null>>;
  readonly history: Readonly<Record<string, readonly (number | null)[]>>;
}

export function written(text: string): WrittenFlight {
  return JSON.parse(text);
}

/** The inputs as a nested object: the keys of a path one in the other, null for a section that is left out. */
export function inputsOf({ inputs, scenario }: WrittenFlight): FlightInputs {
  const whole: Record<string, unknown> = {};
  const set = (path: string, value: unknown) => {
    const keys = path.split('.');
    const last = keys.pop() as string;
    let holder = whole;
    for (const key of keys) {
      holder[key] ??= {};
      holder = holder[key] as Record<string, unknown>;
    }
    holder[last] = value;
  };
  for (const { path, value } of inputs) set(path, value);
  for (const path of scenario.leftOut) set(path, null);
  return whole as unknown as FlightInputs;
}

/**
 * The numbers of a series. None is written beyond what the flight read: to read further is a mistake, unless `beyond` stands for
 * them in a flight that may come down a moment later.
 */
export function seriesOf({ noise }: WrittenFlight, name: string, beyond?: number): NoiseSeries {
  const values = noise.find((series) => series.name === name)?.values;
  return {
    at(node, column) {
      const value = values?.[node]?.[column] ?? beyond;
      if (value === undefined) throw new Error(`${name} has no number at node ${node}, column ${column}`);
      return value;
    },
  };
}

/** "noise.call_out" is the program's callOut. */
export function drawOf(flight: WrittenFlight, beyond?: number): FlightDraw {
  const noise = flight.noise.map(({ name }) => {
    const key = name.replace(/^noise\./, '').replace(/_(.)/g, (_, letter: string) => letter.toUpperCase());
    return [key, seriesOf(flight, name, beyond)];
  });
  return { inputs: inputsOf(flight), noise: Object.fromEntries(noise) };
}
