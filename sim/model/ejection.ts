/** The moment of ejection: uniform numbers give the attitude and the tumble axis, and the load is held against the strength. */

/**
 * Unit quaternion uniform over all rotations from three uniform numbers (Shoemake, Uniform random rotations, Graphics
 * Gems III, 1992), as (w, x, y, z), written to q[at..at+3]. At 1/2, 1/2, 1/2: the can lies on its side.
 */
export function uniformRotation(q: Float64Array, at: number, u1: number, u2: number, u3: number): void {
  const a = Math.sqrt(1 - u1);
  const b = Math.sqrt(u1);
  const t2 = 2 * Math.PI * u2;
  const t3 = 2 * Math.PI * u3;
  q[at] = b * Math.cos(t3);
  q[at + 1] = a * Math.sin(t2);
  q[at + 2] = a * Math.cos(t2);
  q[at + 3] = b * Math.sin(t3);
}

/**
 * Unit vector uniform over all directions from two uniform numbers (Archimedes), written to v[at..at+2]. At 1/2, 1/2: along
 * -y, so that the can on its side tumbles end over end.
 */
export function uniformDirection(v: Float64Array, at: number, u1: number, u2: number): void {
  const z = 2 * u1 - 1;
  const r = Math.sqrt(Math.max(0, 1 - z * z));
  const t = 2 * Math.PI * (u2 + 0.25);
  v[at] = r * Math.cos(t);
  v[at + 1] = r * Math.sin(t);
  v[at + 2] = z;
}

/** Whether the payload breaks: load above strength, both in m/s2 (stress-strength interference). */
export function breaks(load: number, strength: number): boolean {
  return load > strength;
}
