/** The place and the day: site and wind. */
import { list, quantity, section, text } from '../shapes.js';

export const site = section('The place and the day.', {
  elevation: quantity('length', 'Height of the site above sea level.', {
    unit: 'm',
    least: '-430 m',
    most: '6000 m',
    better: 'low',
  }),
  temperature: quantity('temperature', 'Air temperature at the ground.', {
    unit: 'degC',
    least: '-50 degC',
    most: '60 degC',
    better: 'low',
  }),
  pressure: quantity('pressure', 'Measured air pressure at the site; without it the standard atmosphere holds.', {
    unit: 'hPa',
    least: '300 hPa',
    most: '1100 hPa',
    optional: true,
    better: 'high',
  }),
  launch_wind_limit: quantity('speed', 'Wind above which the launch code allows no launch.', {
    unit: 'm/s',
    least: '0.1 m/s',
    most: '60 m/s',
    standard: '20 mph',
    fixed: true,
  }),
  keep_out: list(
    'Circles in which nothing may come down, as the spectators or a road.',
    section('One keep-out circle.', {
      name: text('What is there.'),
      east: quantity('length', 'Centre, east of the planned landing point.', { unit: 'm', fixed: true }),
      north: quantity('length', 'Centre, north of the planned landing point.', { unit: 'm', fixed: true }),
      radius: quantity('length', 'Radius.', { unit: 'm', least: '0.1 m', fixed: true }),
      chance_inside: quantity(
        'ratio',
        'Acceptable chance that a flight comes down inside it, softly or not; without it the program assumes 0.2 %.',
        { unit: '%', least: '0.001 %', most: '99 %', optional: true, fixed: true },
      ),
    }),
  ),
});

export const wind = section('Mean wind and gusts.', {
  speed: quantity('speed', 'Mean wind speed 10 m above ground.', {
    measured: 'Measure at 10 m, or at 2 m and multiply by 1.3 over open ground, as a mean of ten minutes.',
    usual: 'A forecast is known to a factor of 2, a measurement on the day to 20 % (common practice, no source).',
    unit: 'm/s',
    least: '0 m/s',
    most: '60 m/s',
    better: 'low',
  }),
  from: quantity('angle', 'Direction the wind blows from, clockwise from north.', {
    unit: 'deg',
    least: '-360 deg',
    most: '720 deg',
  }),
  shear_exponent: quantity('ratio', 'Exponent of the power-law profile: 1/7 over open ground.', {
    unit: '',
    least: '0',
    most: '0.6',
    standard: '0.142857',
  }),
  gust_factor: quantity('ratio', 'Factor on the gust intensity: under 1 on a calm morning, over 1 on a thermal noon.', {
    unit: '',
    least: '0',
    most: '5',
    standard: '1',
    better: 'low',
  }),
});
