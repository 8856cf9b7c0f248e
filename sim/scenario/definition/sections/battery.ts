/** The battery, and the wait on the pad that drains it. */
import { quantity, section, table } from '../shapes.js';

export const battery = section('The pack, and what the wait on the pad takes from it.', {
  cells: quantity('ratio', 'Cells in series.', { unit: '', least: '1', most: '14', fixed: true, whole: true }),
  capacity: quantity('charge', 'Usable capacity when full.', {
    measured: 'Discharge a full pack at the current of hover down to the cut-off, and read the charge that came out.',
    usual:
      'It is known to 10 % for a new pack and to 50 % for an old or cold one; labels promise more than packs give (common practice, no source).',
    unit: 'mAh',
    least: '10 mAh',
    most: '100 Ah',
    better: 'high',
  }),
  resistance: quantity('resistance', 'Internal resistance of the whole pack with leads at 25 degC.', {
    measured:
      'Read the voltage at two currents and divide their differences, with leads and plugs; many chargers do it.',
    usual:
      'Each cell of 450 mAh has 10 to 20 mohm, known to 10 % when new and to 50 % when old or cold (common practice, no source).',
    unit: 'mohm',
    least: '0 mohm',
    aboveLeast: true,
    most: '5 ohm',
    better: 'low',
  }),
  cut_off_voltage: quantity('voltage', 'Pack voltage under which the motors are stopped.', {
    measured: 'Read it from the settings of the motor controller or flight controller; some act for each cell.',
    usual: 'It is set to 3.0 to 3.3 V for each cell (common practice, no source).',
    unit: 'V',
    least: '0.5 V',
    most: '100 V',
    better: 'low',
  }),
  cut_off_delay: quantity('time', 'How long the voltage must stay under it.', {
    unit: 's',
    least: '0 s',
    most: '10 s',
    standard: '0.3 s',
  }),
  standby_power: quantity('power', 'Drawn while waiting and falling: flight computer, receiver, video.', {
    measured: 'Read voltage times current at the pack with everything on and the motors off.',
    usual: 'It is 2 to 6 W with a video sender (common practice, no source).',
    unit: 'W',
    least: '0 W',
    most: '500 W',
    better: 'low',
  }),
  charge_at_arming: quantity('ratio', 'State of charge when the wait begins.', {
    unit: '%',
    least: '5 %',
    most: '100 %',
    standard: '100 %',
    better: 'high',
  }),
  open_circuit: table(
    'Open-circuit voltage of one cell by state of charge; without it a common lithium-polymer table.',
    [
      { name: 'charge', dimension: 'ratio', unit: '%', least: '0 %', most: '100 %' },
      { name: 'voltage', dimension: 'voltage', unit: 'V', least: '0.1 V', most: '10 V' },
    ],
  ),
});

export const pad = section('The wait in the rocket.', {
  wait: quantity('time', 'From power-on to ejection.', {
    measured: 'Note the times of power-on and launch at a few launch days.',
    usual: 'It is 10 to 60 min on a day with many teams (common practice, no source).',
    unit: 'min',
    least: '0 s',
    most: '1 d',
    better: 'low',
  }),
});
