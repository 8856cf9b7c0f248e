/** The can itself. */
import { quantity, section } from '../shapes.js';

const ACROSS = ['x', 'y'] as const;

export const can = section('The can itself.', {
  diameter: quantity('length', 'Outer diameter.', { unit: 'mm', least: '20 mm', most: '500 mm' }),
  length: quantity('length', 'Length with the arms folded.', { unit: 'mm', least: '20 mm', most: '1500 mm' }),
  mass: quantity('mass', 'Mass at ejection, everything on board.', {
    measured: 'Weigh the whole can as it leaves the rocket, with pack and parachute, on a postal scale.',
    usual:
      'A scale is right to 1 %; glue and straps add some grams from flight to flight (common practice, no source).',
    unit: 'g',
    least: '0 g',
    aboveLeast: true,
    most: '25 kg',
    better: 'low',
  }),
  drag_factor: quantity('ratio', 'Factor on all drag of can and arms: how far the tables may be off.', {
    measured:
      'Drop the can with its arms open and divide: the factor is (computed over measured fall speed) squared, from a barometer log of a steady fall.',
    usual: 'Drag from tables and drawings is known to a quarter at best (common practice, no source).',
    unit: '',
    least: '0.2',
    most: '5',
    standard: '1',
    better: 'high',
  }),
  side_drag_coefficient: quantity('ratio', 'Drag coefficient broadside on; without it a table by length to diameter.', {
    unit: '',
    least: '0.1',
    most: '3',
    optional: true,
    better: 'high',
  }),
  end_drag_coefficient: quantity('ratio', 'Drag coefficient end on; without it a table by length to diameter.', {
    unit: '',
    least: '0.1',
    most: '3',
    optional: true,
    better: 'high',
  }),
  slender_body_factor: quantity('ratio', 'Share of the slender-body force that turns a bare can broadside.', {
    unit: '',
    least: '0',
    most: '1.5',
    standard: '0.65',
  }),
  tumble_floor: quantity('angular rate', 'Rate to which the air stream drives the tumble of the folded can.', {
    measured: 'Log the gyro in a long fall with folded arms and read the rate that stays.',
    usual: 'Nobody knows it without a log: 0 to 150 deg/s is a usual guess (own estimate, no source).',
    unit: 'deg/s',
    least: '0 deg/s',
    most: '5000 deg/s',
    standard: '0 deg/s',
    better: 'low',
  }),
  arm_drag_area: quantity('area', 'Drag area (drag coefficient times area) of one open arm with its motor.', {
    measured:
      'Drop the can with open arms and no propellers and take it from the steady fall speed; else count the area off a drawing, times 1.1.',
    usual:
      'It is 8 to 20 cm^2 for arms of 10 cm, and a guess from a drawing is right to a quarter (common practice, no source).',
    unit: 'cm^2',
    least: '0 cm^2',
    most: '1000 cm^2',
    better: 'high',
  }),
  blade_drag_area: quantity('area', 'Drag area of the stopped blades of one rotor.', {
    measured:
      'Drop it with and without propellers, motors off: the two fall speeds tell the area; else the area of the blades off a drawing.',
    usual: 'It is some 5 to 12 cm^2 for a propeller of 3 in, known to a quarter (common practice, no source).',
    unit: 'cm^2',
    least: '0 cm^2',
    most: '1000 cm^2',
    better: 'high',
  }),
  centre_of_mass_offset: quantity(
    'length',
    'Offset of the centre of mass from the axis, along the body axes x and y, each through the middle between two rotors.',
    {
      measured: 'Balance the can on an edge, along x and along y, to 0.3 mm.',
      usual: 'A pack in its place by eye leaves 1 to 2 mm (common practice, no source).',
      unit: 'mm',
      least: '-30 mm',
      most: '30 mm',
      standard: '{ normal: { mean: 0 mm, sd: 1.2 mm }, kind: fixed but not measured }',
      each: ACROSS,
      better: 'middle',
    },
  ),
  windmilling_factor: quantity(
    'ratio',
    'Factor on the blade drag area while a rotor is not driven: freely turning blades may brake more or less than stopped ones; 1 where the controller brakes them.',
    {
      measured: 'Compare the fall speed of a drop test with free blades and with blades that are taped fast.',
      usual: 'Set it to 1 where the controller brakes the motors.',
      unit: '',
      least: '0',
      most: '5',
      standard: '{ uniform: { from: 0.5, to: 1.6 }, kind: fixed but not measured }',
      better: 'high',
    },
  ),
  wash_share: quantity(
    'ratio',
    'Share of the drag area of an arm and its motor that stands in the wash of its own rotor.',
    {
      measured:
        'Run a rotor on the thrust stand with and without its arm in place: the loss tells the share; else count it off a drawing.',
      usual: 'It is a fifth to two thirds (own estimate: no number is published for the arms of a small craft).',
      unit: '',
      least: '0',
      most: '1',
      standard: '{ uniform: { from: 0.2, to: 0.7 }, kind: fixed but not measured }',
      better: 'low',
    },
  ),
  middle_above_centre_of_mass: quantity('length', 'Height of the middle of the can above the centre of mass.', {
    unit: 'mm',
    least: '-500 mm',
    most: '500 mm',
    standard: '0 mm',
  }),
  folded_axial_inertia: quantity('inertia', 'About the long axis, arms folded; without it that of a solid cylinder.', {
    measured: 'Swing it about this axis on two strings of equal length and time twenty swings.',
    usual: 'Two strings are right to 5 %, a solid cylinder to 30 % (common practice, no source).',
    unit: 'kg m^2',
    least: '0 kg m^2',
    aboveLeast: true,
    most: '10 kg m^2',
    optional: true,
  }),
  folded_transverse_inertia: quantity(
    'inertia',
    'About an axis across, arms folded; without it that of a solid cylinder.',
    {
      measured: 'Swing it about this axis on two strings of equal length and time twenty swings.',
      usual: 'Two strings are right to 5 %, a solid cylinder to 30 % (common practice, no source).',
      unit: 'kg m^2',
      least: '0 kg m^2',
      aboveLeast: true,
      most: '10 kg m^2',
      optional: true,
    },
  ),
  open_axial_inertia: quantity(
    'inertia',
    'About the long axis, arms open; without it the folded one plus four arms of a twentieth of the mass each.',
    {
      measured: 'Swing it with open arms about this axis on two strings of equal length and time twenty swings.',
      usual: 'Two strings are right to 5 % (common practice, no source).',
      unit: 'kg m^2',
      least: '0 kg m^2',
      aboveLeast: true,
      most: '10 kg m^2',
      optional: true,
    },
  ),
  open_transverse_inertia: quantity('inertia', 'About an axis across, arms open; without it as for the axial one.', {
    measured: 'Swing it with open arms about this axis on two strings of equal length and time twenty swings.',
    usual: 'Two strings are right to 5 % (common practice, no source).',
    unit: 'kg m^2',
    least: '0 kg m^2',
    aboveLeast: true,
    most: '10 kg m^2',
    optional: true,
  }),
});
