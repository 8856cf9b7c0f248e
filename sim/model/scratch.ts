/**
 * The scratch array of the equations of motion is the one place where their parts hand numbers on. A number that crosses a
 * call that the engine does not inline is boxed, which made the equations four times slower; the one array is found once.
 * Everything in it is SI, in body axes unless told. Each function that takes the array says in its comment which places it
 * reads and which it writes ("Force" stands for ForceX to ForceZ, and so on).
 *
 * The places are a constant enum, because the compiler then writes the numbers into the code: an imported constant is looked
 * up and checked at each use, which cost a tenth of a flight.
 */
// biome-ignore lint/suspicious/noConstEnum: see above
export const enum Slot {
  /** Time of the evaluation, s. */
  Time = 0,
  /** rho: density of the air, kg/m3. */
  Density = 1,
  /** u: velocity of the centre of mass through the air, m/s. */
  AirX = 2,
  AirY = 3,
  AirZ = 4,
  /** w: turning rate, rad/s. */
  TurnX = 5,
  TurnY = 6,
  TurnZ = 7,
  /** o: how far open the arms are, 0..1, the mean of sin^2 a over the four; its rate, 1/s. */
  Openness = 8,
  Opening = 9,
  /** F and M: force, N, and moment, N m, of all effects so far, about the point on the axis at the centre of mass's height. */
  ForceX = 10,
  ForceY = 11,
  ForceZ = 12,
  MomentX = 13,
  MomentY = 14,
  MomentZ = 15,
  /** R: rotation matrix from body to inertial axes, row by row: rows east, north, up; columns x, y, z. */
  EastX = 16,
  EastY = 17,
  EastZ = 18,
  NorthX = 19,
  NorthY = 20,
  NorthZ = 21,
  UpX = 22,
  UpY = 23,
  UpZ = 24,
  /** V_c: axial speed of each running rotor's centre through the air, m/s. */
  Axial1 = 25,
  Axial2 = 26,
  Axial3 = 27,
  Axial4 = 28,
  /** T_i/T: share of the full static thrust that each rotor gives. */
  Share1 = 29,
  Share2 = 30,
  Share3 = 31,
  Share4 = 32,
  /** w_m: what the gyro reads, rad/s. */
  GyroX = 33,
  GyroY = 34,
  GyroZ = 35,
  /** The pack: E, open-circuit voltage; voltage V found last before the step; voltage V and current found. V and A. */
  OpenCircuit = 38,
  StepVoltage = 39,
  Voltage = 40,
  Current = 41,
  /** (V/V_b)^(k/2): root of the thrust ratio at the voltage found. */
  VoltageRoot = 42,
  /** Wind at the node before, and its change to the node after, m/s (inertial axes). */
  WindEast = 43,
  WindNorth = 44,
  WindUp = 45,
  WindChangeEast = 46,
  WindChangeNorth = 47,
  WindChangeUp = 48,
  /** P: pull of the canopy, N. */
  Pull = 49,
  /** e and n: horizontal tilt command of the pilot as tangents towards east and north (inertial axes). */
  TiltEast = 50,
  TiltNorth = 51,
  /** t: wanted direction of the thrust, any length. */
  WantedX = 52,
  WantedY = 53,
  WantedZ = 54,
  /** Wanted turning rates about x and y, rad/s. */
  WantedTurnX = 55,
  WantedTurnY = 56,
  /** Asked of the mixer: thrust fractions for each unit of rotor position about x and y, for yaw, and in common (C). */
  Roll = 57,
  Pitch = 58,
  Yaw = 59,
  Collective = 60,
  /** Thrust fraction 0..1 ordered of each rotor. */
  Command1 = 61,
  Command2 = 62,
  Command3 = 63,
  Command4 = 64,
  /** Static thrust of all four rotors at full throttle as the controller takes it to be, N: what it divides by. */
  BelievedThrust = 65,
  /** n v_h: induced speed of each rotor at its own thrust and axial speed, 0 where it gives none, m/s. */
  Wash1 = 66,
  Wash2 = 67,
  Wash3 = 68,
  Wash4 = 69,
  /** Wanted turning rate less the gyro's about x and y, rad/s; the command that the integral term asks for, not yet cut. */
  TurnErrorX = 70,
  TurnErrorY = 71,
  TurnIntegralX = 72,
  TurnIntegralY = 73,
  /** When StepVoltage was found, s, and how fast the voltage changed before, V/s. */
  StepVoltageTime = 74,
  VoltageRate = 75,
  Size = 76,
}
