/** The battery, and the wait on the pad that drains it. */
import { quantity, section, table } from '../shapes.js';

export const battery = section('The pack, and what the wait on the pad takes from it.', {
  cells: quantity('ratio', 'Cells in series.', { unit: '', least: '1', most: '14', fixed: true, whole: true }),
  capacity: quantity('charge', 'Usable capacity when full.', {
    unit: 'mAh',
    least: '10 mAh',
    most: '100 Ah',
    better: 'high',
  }),
  resistance: quantity('resistance', 'Internal resistance of the whole pack with leads at 25 degC.', {
    unit: 'mohm',
    least: '0 mohm',
    aboveLeast: true,
    most: '5 ohm',
    better: 'low',
  }),
  cut_off_voltage: quantity('voltage', 'Pack voltage under which the motors are stopped.', {
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
  wait: quantity('time', 'From power-on to ejection.', { unit: 'min', least: '0 s', most: '1 d', better: 'low' }),
});
