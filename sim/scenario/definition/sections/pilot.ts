/** Who orders the throttle-up, and how the approach is flown. */
import { chance, choice, quantity, section } from '../shapes.js';

const AXES = ['east', 'north'] as const;

export const pilot = section('Whoever orders the throttle-up and flies the approach.', {
  reaction: quantity('time', 'From the cue to the order.', {
    measured:
      'Practise calls with a stop-watch or with the logged stick, the pilot not knowing when: twenty are right to a tenth.',
    usual: 'People take 0.5 to 2 s from a called height (own estimate: no figure is published for this task).',
    unit: 's',
    least: '0 s',
    most: '60 s',
    standard: '0 s',
    perfect: 'the pilot reacts at once',
    better: 'low',
  }),
  lapse: chance('Chance that attention is elsewhere when the cue comes.', {
    measured: 'Count the practice calls, on days with spectators and noise, at which the pilot was elsewhere.',
    usual: 'It is 1 to 5 % (own estimate, no source).',
    standard: '0',
    perfect: 'attention is never elsewhere',
  }),
  lapse_length: quantity('time', 'How long such a lapse lasts.', {
    measured: 'Take it from the same practice calls.',
    usual: 'It is 1 to 5 s (own estimate, no source).',
    unit: 's',
    least: '0 s',
    most: '120 s',
    standard: '3 s',
    better: 'low',
  }),
  call_out: section('The barometric height, for the cues "call-out" and "automatic".', {
    latency: quantity('time', 'Age of the reading when it is heard or used.', {
      measured: 'Film the screen beside a stop-watch, and lift the can by a known height.',
      usual: 'Telemetry and a voice take 0.2 to 1 s (own estimate, no source).',
      unit: 's',
      least: '0 s',
      most: '10 s',
      standard: '0.3 s',
      better: 'low',
    }),
    formula: choice(
      'What the altimeter makes of the pressure, from the pressure that it found on the ground.',
      {
        'standard atmosphere': 'pressure altitude less that of the ground: reads low in air warmer than standard',
        'fixed sea level':
          '44330 m (1 - (p/p0)^0.1903), as sensor data sheets have it: as if the ground were at sea level at 15 degC',
        'temperature corrected': 'with the air temperature at the ground, rightly told: reads true',
      },
      'standard atmosphere',
    ),
    bias: quantity('length', 'Reading minus true height, apart from the formula and air flow.', {
      measured: 'Carry it up a tower or a hill of known height and back, with the wait of a launch between.',
      usual: 'An hour of drifting weather makes 2 to 10 m (common practice, no source).',
      unit: 'm',
      least: '-500 m',
      most: '500 m',
      standard: '0 m',
      better: 'low',
    }),
    flow_error: quantity(
      'ratio',
      'Share of the dynamic pressure that reads as height, minus the pressure coefficient at the vents: suction reads high, so late.',
      {
        measured:
          'Hold the can end first out of a moving car on a level road, and divide the change of the reading by v^2 / (2 g).',
        usual: 'It is 0 to 0.5 for most places of the vents; MODEL.md has a table.',
        unit: '',
        least: '-1.5',
        most: '1.5',
        // Vents in the side wall at or behind the middle; sim/MODEL.md has a table for other places.
        standard: '{ normal: { mean: 0.2, sd: 0.15 }, kind: fixed but not measured }',
        better: 'low',
      },
    ),
    noise: quantity('length', 'Standard deviation of the reading noise.', {
      unit: 'm',
      least: '0 m',
      most: '50 m',
      standard: '1 m',
    }),
  }),
  picture: section('The height judged by eye, for the cue "picture".', {
    judgement: quantity('ratio', 'True height over planned height at which the order is given.', {
      measured: 'Ask the pilot for a height in films of earlier flights with a barometer log beside them.',
      usual: 'People judge heights over open ground by a third too high or too low (own estimate, no source).',
      unit: '',
      least: '0.01',
      most: '20',
      standard: '0.85',
      better: 'high',
    }),
  }),
  approach_speed: quantity('speed', 'Descent rate held on the approach.', {
    unit: 'm/s',
    least: '0.3 m/s',
    most: '15 m/s',
    standard: '4 m/s',
  }),
  flare_height: quantity('length', 'Height at which the descent is slowed.', {
    unit: 'm',
    least: '0 m',
    most: '50 m',
    standard: '4 m',
  }),
  touchdown_speed: quantity('speed', 'Descent rate aimed at for the touchdown.', {
    unit: 'm/s',
    least: '0.1 m/s',
    most: '10 m/s',
    standard: '1.2 m/s',
  }),
  response_time: quantity('time', 'Lag of the pilot in holding the descent rate.', {
    unit: 's',
    least: '0.05 s',
    most: '1 s',
    standard: '0.25 s',
  }),
  throttle_noise: quantity(
    'acceleration',
    'Standard deviation of the unsteadiness of the throttle hand, drawn anew every 0.1 s.',
    {
      unit: 'm/s^2',
      least: '0 m/s^2',
      most: '5 m/s^2',
      standard: '0.3 m/s^2',
    },
  ),
  tilt_limit: quantity('angle', 'Largest tilt flown on the approach.', {
    unit: 'deg',
    least: '1 deg',
    most: '45 deg',
    standard: '15 deg',
  }),
  ground_speed_limit: quantity('speed', 'Largest speed over ground flown back to the landing point.', {
    unit: 'm/s',
    least: '0 m/s',
    most: '30 m/s',
    standard: '6 m/s',
  }),
  ground_speed_error: quantity('speed', 'Error in nulling the ground speed near the ground, on each axis.', {
    unit: 'm/s',
    least: '-10 m/s',
    most: '10 m/s',
    standard: '0 m/s',
    each: AXES,
  }),
});
