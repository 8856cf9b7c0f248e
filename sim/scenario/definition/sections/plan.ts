/** What the team decides, and what must hold for the plan to be acceptable. */
import { choice, optionalSection, quantity, section, text } from '../shapes.js';

export const plan = section('What the team decides.', {
  throttle_up_height: quantity('length', 'Height above ground at which full throttle is planned.', {
    unit: 'm',
    least: '1 m',
    most: '5000 m',
    fixed: true,
  }),
  cue: choice('What tells the pilot, or the craft, that the height has come.', {
    'call-out': 'a person reads the barometric height aloud from telemetry',
    picture: 'the pilot judges the height from the video picture',
    timer: 'a timer that starts at ejection',
    automatic: 'the craft throttles up by itself at the barometric height',
  }),
  timer_start: choice(
    'How the timer starts; only for the cue "timer".',
    { 'by itself': 'the craft senses the ejection', 'a person': 'a person presses a button on seeing the ejection' },
    'by itself',
  ),
  motor_stop: text('Who can stop the motors at once in flight, and with what; left out, nobody can.', ''),
});

export const criteria = section(
  'What must hold for the plan to be acceptable. The range safety officer may demand more.',
  {
    ground_impact_risk: quantity('ratio', 'Acceptable chance that a flight does not land softly.', {
      unit: '%',
      least: '0.01 %',
      most: '99 %',
      fixed: true,
    }),
    recovery_circle: optionalSection('Where the payload must come down.', {
      radius: quantity('length', 'Radius of the recovery circle around the planned landing point.', {
        unit: 'm',
        least: '1 m',
        most: '50 km',
        fixed: true,
      }),
      chance_outside: quantity('ratio', 'Acceptable chance of coming down outside it.', {
        unit: '%',
        least: '0.01 %',
        most: '99 %',
        fixed: true,
      }),
    }),
    touchdown_energy: optionalSection('How hard it may touch down, for the frame of the payload or for the range.', {
      most: quantity('energy', 'Highest energy at touchdown.', {
        unit: 'J',
        least: '0 J',
        aboveLeast: true,
        most: '100 kJ',
        fixed: true,
      }),
      chance_over: quantity('ratio', 'Acceptable chance of touching down with more.', {
        unit: '%',
        least: '0.01 %',
        most: '99 %',
        fixed: true,
      }),
    }),
    vertical_speed: quantity('speed', 'Highest vertical touchdown speed that the airframe survives.', {
      unit: 'm/s',
      least: '0.5 m/s',
      most: '50 m/s',
      standard: '5 m/s',
      fixed: true,
    }),
    horizontal_speed: quantity('speed', 'Highest horizontal touchdown speed that counts as soft.', {
      unit: 'm/s',
      least: '0.5 m/s',
      most: '50 m/s',
      standard: '8 m/s',
      fixed: true,
    }),
    canopy_speed: quantity('speed', 'Highest vertical touchdown speed under a parachute.', {
      unit: 'm/s',
      least: '0.5 m/s',
      most: '50 m/s',
      standard: '6 m/s',
      fixed: true,
    }),
    tilt: quantity('angle', 'Largest tilt at contact that counts as soft.', {
      unit: 'deg',
      least: '1 deg',
      most: '180 deg',
      standard: '30 deg',
      fixed: true,
    }),
  },
);
