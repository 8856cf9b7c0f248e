/** The numbers that one flight drew, each with its place in its own law. */
import type { UncertainValue } from '../distributions/distribution.js';
import { createLaw, quantile, settle, unmeasuredParameters } from '../distributions/law.js';
import type { DrawnInput } from '../draws/inputs.js';
import { inputNamed } from '../scenario/lookup.js';
import type { ResolvedInput, Scenario } from '../scenario/scenario.js';
import type { DrawnNumber } from './result.js';

/** The uniform number of each drawn name. */
type Uniforms = ReadonlyMap<string, number>;

/** In the order of `drawn`, which is the definition's. */
export function drawnNumbers(
  scenario: Scenario,
  drawn: readonly DrawnInput[],
  uniformOf: (name: string) => number,
): readonly DrawnNumber[] {
  const uniforms: Uniforms = new Map(drawn.map(({ name }) => [name, uniformOf(name)]));
  return drawn.map((one) => drawnNumber(scenario, one, uniforms));
}

function drawnNumber(
  scenario: Scenario,
  { name, path, part, unmeasured }: DrawnInput,
  uniforms: Uniforms,
): DrawnNumber {
  const place = uniforms.get(name) as number;
  const kind = unmeasured ? 'fixed but not measured' : 'varies from flight to flight';
  const common = { name, path, kind, quantile: place } as const;
  const input = inputNamed(scenario, path);
  if (part === 'luck' || input === null) return { ...common, part, value: place, shown: place, unit: '', chance: null };
  if (part === 'event') {
    const chance = chanceOf(input, uniforms);
    return { ...common, part, value: 1 - place < chance, shown: null, unit: '', chance };
  }
  const value = quantile(settledLaw(lawNamed(input, name), plainName(name), uniforms), place);
  const { unit, perSi, offset } = shownAs(input, part === 'parameter' ? lastKey(name) : '');
  return { ...common, part, value, shown: value * perSi + offset, unit, chance: null };
}

/** The chance of an event in this flight. */
function chanceOf({ path, value }: ResolvedInput, uniforms: Uniforms): number {
  if (value.form === 'fixed') return value.value;
  return quantile(settledLaw(value, path, uniforms), uniforms.get(path) as number);
}

/** The law with its unmeasured parameters as this flight drew them. */
function settledLaw(value: UncertainValue, name: string, uniforms: Uniforms) {
  const law = createLaw(value);
  const parameters = unmeasuredParameters(value.distribution);
  for (const parameter of parameters) {
    const own = `${name}.${parameter.name}`;
    law.parameters[parameter.index] = quantile(settledLaw(parameter.value, own, uniforms), uniforms.get(own) as number);
  }
  if (parameters.length > 0) settle(law);
  return law;
}

/** The law of an input's own value or, with the parameter's name behind the path, of an unmeasured parameter. */
function lawNamed({ path, value }: ResolvedInput, name: string): UncertainValue {
  const keys = plainName(name).slice(path.length).split('.').slice(1);
  const law = keys.reduce<unknown>(
    (holder, key) => (holder as UncertainValue).distribution[key as keyof UncertainValue['distribution']],
    value,
  );
  return law as UncertainValue;
}

/** Without the label of what it was drawn for. */
function plainName(name: string): string {
  return name.replace(/\[.*$/, '');
}

function lastKey(name: string): string {
  return name.slice(name.lastIndexOf('.') + 1);
}

/** How a number is shown: in the input's unit, a pure number bare, a width of temperatures as a difference. */
function shownAs({ unit, perSi, offset }: ResolvedInput, parameter: string) {
  if (['spread', 'shape', 'a', 'b'].includes(parameter)) return { unit: '', perSi: 1, offset: 0 };
  if (parameter !== 'sd') return { unit, perSi, offset };
  return { unit: offset === 0 ? unit : 'K', perSi: offset === 0 ? perSi : 1, offset: 0 };
}
