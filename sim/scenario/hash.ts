/** The hash of a scenario: a fingerprint of all that decides its flights and their verdict. */
import { createHash } from 'node:crypto';
import type { Scenario } from './scenario.js';

/**
 * SHA-256 (hex) of the title and of everything that decides how flights go and are judged: values and distributions
 * in SI, choices, tables, lists, what is left out, correlations. Provenance, notes, units of display, the text
 * `about` and who stops the motors are not in it, so that writing down where a number comes from does not make it another scenario.
 */
export function hashOf(scenario: Omit<Scenario, 'hash'>): string {
  const { title, inputs, leftOut, correlations } = scenario;
  const { about: _about, invented: _invented, 'plan.motor_stop': _stop, ...settings } = scenario.settings;
  const pairs = correlations.map(({ between, rank }) => canonical([...[...between].sort(), rank]));
  const content = {
    title,
    inputs: inputs.map(({ path, value }) => [path, value]),
    settings,
    leftOut,
    correlations: pairs.sort(),
  };
  return createHash('sha256').update(canonical(content)).digest('hex');
}

/** JSON with the keys of every object in order. */
function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null';
  const entries = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${entries.map(([key, part]) => `${JSON.stringify(key)}:${canonical(part)}`).join(',')}}`;
}
