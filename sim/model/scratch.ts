/**
 * The scratch array of the equations of motion: the one place where their parts hand numbers on. A number that crosses a
 * call that the engine does not inline is boxed, which made the equations four times slower; one array is found once.
 * SI, body axes unless told.
 *
 * A constant enum, because the compiler then writes the numbers into the code: an imported constant is looked up and
 * checked at each use, which cost a tenth of a flight.
 */
// biome-ignore lint/suspicious/noConstEnum: see above
export const enum Slot {
  /** Time of the evaluation, s. */
  Time = 0,
  /** Density of the air, kg/m3. */
  Density = 1,
  /** Velocity of the centre of mass through the air x, y, z, m/s. */
  Airspeed = 2,
  /** Turning rate x, y, z, rad/s. */
  Turn = 5,
  /** How far open the arms are, 0..1, and its rate, 1/s. */
  Openness = 8,
  Opening = 9,
  /** Force and moment of all effects: Fx, Fy, Fz in N, Mx, My, Mz in N m. */
  Load = 10,
  /** Rotation matrix, body to inertial, row by row. */
  Rotation = 16,
  /** Axial speed of each rotor centre through the air, m/s. */
  Axial = 25,
  /** Share of the full static thrust that each rotor gives. */
  Share = 29,
  /** What the gyro reads x, y, z, rad/s. */
  Gyro = 33,
  /** Inertia about the can's axis and across it, kg m2. */
  Inertia = 36,
  /** The pack: open-circuit voltage and voltage at the step's start, V; voltage and current found, V and A. */
  OpenCircuit = 38,
  StepVoltage = 39,
  Voltage = 40,
  Current = 41,
  /** Static thrust of one rotor at full throttle at the voltage found, N. */
  FullThrust = 42,
  /** Wind at the node before, and its change to the node after: east, north, up, m/s. */
  Wind = 43,
  WindChange = 46,
  /** Pull of the canopy, N. */
  Pull = 49,
  /** Horizontal tilt command of the pilot as tangents towards east and north (inertial). */
  Tilt = 50,
  /** Wanted direction of the thrust, any length; then the wanted rates about x and y, rad/s. */
  Wanted = 52,
  /** Asked of the mixer: thrust fractions for each unit of rotor position about x and y, for yaw, and in common. */
  Roll = 55,
  Pitch = 56,
  Yaw = 57,
  Collective = 58,
  /** Thrust fraction 0..1 ordered of each rotor. */
  Command = 59,
  Size = 63,
}
