/**
 * The arms: how far they are open, and the inertia that they give the can. The arms open by a smooth step over the opening
 * time, and the turning keeps its angular momentum: I dw/dt = M - w x (I w) - (dI/dt) w. Their drag is in airframe.ts.
 */

/** How far open the arms are, 0..1, at share x of the opening time: 3 x^2 - 2 x^3. */
export function openness(x: number): number {
  if (x <= 0) return 0;
  return x >= 1 ? 1 : x * x * (3 - 2 * x);
}

/** Slope of `openness` over x. */
export function opennessSlope(x: number): number {
  return x <= 0 || x >= 1 ? 0 : 6 * x * (1 - x);
}

/** Share of the mass in one arm with its motor, where the open inertia is not given (common practice, no source). */
const ARM_MASS_SHARE = 0.05;

/** Inertia in kg m2 that four open arms add to the folded can: four points at the rotor centres, less the same on the can's wall. */
export function openArmsInertia(
  mass: number,
  diameter: number,
  rotorDistance: number,
  rotorHeight: number,
): { axial: number; transverse: number } {
  const arm = ARM_MASS_SHARE * mass;
  const wall = diameter / 2;
  const axial = 4 * arm * (rotorDistance * rotorDistance - wall * wall);
  return { axial, transverse: axial / 2 + 4 * arm * rotorHeight * rotorHeight };
}
