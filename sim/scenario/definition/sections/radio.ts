/** The radio link and the video sender. */
import { choice, optionalSection, quantity, section } from '../shapes.js';

export const link = section('The radio.', {
  delay: quantity('time', 'From the stick to the motors.', {
    measured: 'Film stick and motor together at 120 pictures a second or more.',
    usual: 'Radios for models take 0.05 to 0.15 s (common practice, no source).',
    unit: 's',
    least: '0 s',
    most: '5 s',
    standard: '0.1 s',
    better: 'low',
  }),
  outage_rate: quantity('rate', 'Outages for each second of flight.', {
    measured:
      'Count the gaps in logs of the receiver at the real distance, with the antenna as it lies in the tumbling can.',
    usual: 'A can that tumbles loses the link 0.005 to 0.05 times a second (own estimate, no source).',
    unit: '1/s',
    least: '0/s',
    most: '10/s',
    standard: '0/s',
    perfect: 'the radio never drops out',
    better: 'low',
  }),
  outage_length: quantity('time', 'Mean length of an outage; each is drawn from an exponential law.', {
    unit: 's',
    least: '0.01 s',
    most: '120 s',
    standard: '1 s',
    better: 'low',
  }),
  fail_safe_time: quantity('time', 'Outage in powered flight after which the fail-safe acts.', {
    unit: 's',
    least: '0.05 s',
    most: '60 s',
    standard: '2 s',
  }),
  fail_safe: choice(
    'What the fail-safe does.',
    { 'land by itself': 'holds level and descends at the approach speed', 'stop the motors': 'the motors stop' },
    'land by itself',
  ),
});

export const video = optionalSection(
  'The video sender, which heats up while waiting; without the section it never fails.',
  {
    power: quantity('power', 'Heat it makes.', { unit: 'W', least: '0 W', most: '100 W', better: 'low' }),
    thermal_resistance: quantity('thermal resistance', 'Temperature rise for each watt in the closed can.', {
      unit: 'K/W',
      least: '0 K/W',
      most: '500 K/W',
      better: 'low',
    }),
    time_constant: quantity('time', 'Time constant of the warming.', { unit: 'min', least: '1 s', most: '10 h' }),
    limit: quantity('temperature', 'Temperature at which the sender shuts down.', {
      unit: 'degC',
      least: '0 degC',
      most: '200 degC',
      better: 'high',
    }),
    without_picture: choice(
      'What a pilot who goes by the picture does without one.',
      {
        'call-out': 'goes by the call-out',
        timer: 'goes by a timer from ejection',
        nothing: 'never orders the throttle-up',
      },
      'nothing',
    ),
  },
);
