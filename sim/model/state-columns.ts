/** The states by name, as the columns of a trace have them. */
import { State } from './state.js';

/** Each state's name with its SI unit, in ascending order of places; a state without a name does not compile. */
export const STATE_COLUMNS = {
  [State.East]: 'east_m',
  [State.North]: 'north_m',
  [State.Height]: 'height_m',
  [State.EastSpeed]: 'east_speed_m_per_s',
  [State.NorthSpeed]: 'north_speed_m_per_s',
  [State.UpSpeed]: 'up_speed_m_per_s',
  [State.AttitudeW]: 'attitude_w',
  [State.AttitudeX]: 'attitude_x',
  [State.AttitudeY]: 'attitude_y',
  [State.AttitudeZ]: 'attitude_z',
  [State.TurnX]: 'turning_rate_x_rad_per_s',
  [State.TurnY]: 'turning_rate_y_rad_per_s',
  [State.TurnZ]: 'turning_rate_z_rad_per_s',
  [State.EstimateX]: 'estimated_up_x',
  [State.EstimateY]: 'estimated_up_y',
  [State.EstimateZ]: 'estimated_up_z',
  [State.Thrust1]: 'thrust_1',
  [State.Thrust2]: 'thrust_2',
  [State.Thrust3]: 'thrust_3',
  [State.Thrust4]: 'thrust_4',
  [State.Charge]: 'charge_drawn_C',
  [State.Hand]: 'hand_m_per_s2',
  [State.IntegralX]: 'integral_x_rad',
  [State.IntegralY]: 'integral_y_rad',
  [State.Arm1]: 'arm_1_rad',
  [State.Arm2]: 'arm_2_rad',
  [State.Arm3]: 'arm_3_rad',
  [State.Arm4]: 'arm_4_rad',
  [State.ArmRate1]: 'arm_1_rad_per_s',
  [State.ArmRate2]: 'arm_2_rad_per_s',
  [State.ArmRate3]: 'arm_3_rad_per_s',
  [State.ArmRate4]: 'arm_4_rad_per_s',
} as const satisfies Readonly<Record<State, string>>;

export type StateColumn = (typeof STATE_COLUMNS)[State];
