/**
 * The inertia that the arms give the can: it goes from folded to open with o, the mean over the four of sin^2 of their angles,
 * because a point on a circle about the hinge is so far from where it was folded. The turning keeps its angular momentum:
 * I dw/dt = M - w x (I w) - (dI/dt) w. The drag of the arms is in airframe.ts, their opening in hinge.ts.
 */

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
  const axial = 4 * arm * outwards(diameter, rotorDistance);
  return { axial, transverse: axial / 2 + 4 * arm * rotorHeight * rotorHeight };
}

/**
 * Mass in kg of one arm with its motor, a point at its rotor's centre: what gives the open can its added axial inertia,
 * 4 m (R^2 - (D/2)^2); 1/20 of the mass where that says nothing.
 */
export function armMass(mass: number, addedAxial: number, diameter: number, rotorDistance: number): number {
  const arm = addedAxial / (4 * outwards(diameter, rotorDistance));
  return arm > 0 && arm < mass / 4 ? arm : ARM_MASS_SHARE * mass;
}

/** R^2 - (D/2)^2 in m2: by how much a rotor moves outwards, squared distances from the axis. */
function outwards(diameter: number, rotorDistance: number): number {
  return rotorDistance * rotorDistance - (diameter * diameter) / 4;
}
