/**
 * Every entry that a scenario file may hold, in the order of a mission. This is the one definition: the reader of
 * scenario files, the JSON Schema, the starter file, the input table of the report and the type of one flight's
 * inputs all come from it. Names here, in the file and in the code are the same, so that one search finds an input
 * from the file to its equation.
 */
import {
  chance,
  choice,
  type FlightValue,
  list,
  luck,
  optionalSection,
  quantity,
  section,
  table,
  text,
} from './shapes.js';

const AXES = ['east', 'north'] as const;
const ROTORS = ['rotor 1', 'rotor 2', 'rotor 3', 'rotor 4'] as const;
const ARMS = ['arm 1', 'arm 2', 'arm 3', 'arm 4'] as const;
const BODY_AXES = ['x', 'y', 'z'] as const;

export const SCENARIO = section('One payload, one site, one plan: everything a simulated flight needs to know.', {
  title: text('Name of the scenario, shown on every page of the report.'),
  about: text('What this scenario is, in a sentence or two.', ''),
  invented: choice(
    'Whether the numbers are invented for demonstration; the report says so when they are.',
    { yes: 'invented for demonstration', no: 'a real payload' },
    'no',
  ),

  plan: section('What the team decides.', {
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
  }),

  criteria: section('What must hold for the plan to be acceptable. The range safety officer may demand more.', {
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
  }),

  site: section('The place and the day.', {
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
      }),
    ),
  }),

  wind: section('Mean wind and gusts.', {
    speed: quantity('speed', 'Mean wind speed 10 m above ground.', {
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
    gust_factor: quantity(
      'ratio',
      'Factor on the gust intensity: under 1 on a calm morning, over 1 on a thermal noon.',
      {
        unit: '',
        least: '0',
        most: '5',
        standard: '1',
        better: 'low',
      },
    ),
  }),

  can: section('The can itself.', {
    diameter: quantity('length', 'Outer diameter.', { unit: 'mm', least: '20 mm', most: '500 mm' }),
    length: quantity('length', 'Length with the arms folded.', { unit: 'mm', least: '20 mm', most: '1500 mm' }),
    mass: quantity('mass', 'Mass at ejection, everything on board.', {
      unit: 'g',
      least: '0 g',
      aboveLeast: true,
      most: '25 kg',
      better: 'low',
    }),
    drag_factor: quantity('ratio', 'Factor on all drag of can and arms: how far the tables may be off.', {
      unit: '',
      least: '0.2',
      most: '5',
      standard: '1',
      better: 'high',
    }),
    side_drag_coefficient: quantity(
      'ratio',
      'Drag coefficient broadside on; without it a table by length to diameter.',
      {
        unit: '',
        least: '0.1',
        most: '3',
        optional: true,
        better: 'high',
      },
    ),
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
      unit: 'deg/s',
      least: '0 deg/s',
      most: '5000 deg/s',
      standard: '0 deg/s',
      better: 'low',
    }),
    arm_drag_area: quantity('area', 'Drag area (drag coefficient times area) of one open arm with its motor.', {
      unit: 'cm^2',
      least: '0 cm^2',
      most: '1000 cm^2',
      better: 'high',
    }),
    blade_drag_area: quantity('area', 'Drag area of the stopped blades of one rotor.', {
      unit: 'cm^2',
      least: '0 cm^2',
      most: '1000 cm^2',
      better: 'high',
    }),
    middle_above_centre_of_mass: quantity('length', 'Height of the middle of the can above the centre of mass.', {
      unit: 'mm',
      least: '-500 mm',
      most: '500 mm',
      standard: '0 mm',
    }),
    folded_axial_inertia: quantity(
      'inertia',
      'About the long axis, arms folded; without it that of a solid cylinder.',
      {
        unit: 'kg m^2',
        least: '0 kg m^2',
        aboveLeast: true,
        most: '10 kg m^2',
        optional: true,
      },
    ),
    folded_transverse_inertia: quantity(
      'inertia',
      'About an axis across, arms folded; without it that of a solid cylinder.',
      {
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
        unit: 'kg m^2',
        least: '0 kg m^2',
        aboveLeast: true,
        most: '10 kg m^2',
        optional: true,
      },
    ),
    open_transverse_inertia: quantity('inertia', 'About an axis across, arms open; without it as for the axial one.', {
      unit: 'kg m^2',
      least: '0 kg m^2',
      aboveLeast: true,
      most: '10 kg m^2',
      optional: true,
    }),
  }),

  rotors: section('Four rotors, as measured on a thrust stand.', {
    diameter: quantity('length', 'Propeller diameter.', { unit: 'in', least: '1 in', most: '20 in' }),
    distance_from_axis: quantity('length', 'From the axis of the can to the axis of each rotor.', {
      unit: 'mm',
      least: '10 mm',
      most: '1 m',
    }),
    height_above_centre_of_mass: quantity('length', 'Height of the rotor plane above the centre of mass, arms open.', {
      unit: 'mm',
      least: '-500 mm',
      most: '500 mm',
    }),
    bench_thrust: quantity('force', 'Static thrust of one rotor at full throttle on the stand.', {
      unit: 'gf',
      least: '1 gf',
      most: '100 kgf',
      better: 'high',
    }),
    bench_power: quantity('power', 'Electrical power of one rotor at full throttle on the stand.', {
      unit: 'W',
      least: '0.5 W',
      most: '20 kW',
      better: 'low',
    }),
    bench_voltage: quantity('voltage', 'Voltage at the motor controller during that measurement.', {
      unit: 'V',
      least: '1 V',
      most: '100 V',
    }),
    bench_density: quantity('density', 'Air density during that measurement.', {
      unit: 'kg/m^3',
      least: '0.4 kg/m^3',
      most: '1.6 kg/m^3',
      standard: '1.225 kg/m^3',
    }),
    thrust_factor: quantity('ratio', 'Factor on thrust: spread between rotors, wear, installation.', {
      unit: '',
      least: '0.1',
      most: '2',
      standard: '1',
      better: 'high',
    }),
    voltage_exponent: quantity('ratio', 'Thrust goes with voltage to this power.', {
      unit: '',
      least: '0.5',
      most: '3',
      standard: '2',
    }),
    zero_thrust_speed: quantity(
      'speed',
      'Axial climb speed at which full throttle gives no thrust, at bench voltage.',
      {
        unit: 'm/s',
        least: '5 m/s',
        most: '200 m/s',
      },
    ),
    motor_lag: quantity('time', 'Time constant of the first-order motor response.', {
      unit: 'ms',
      least: '5 ms',
      most: '1 s',
      standard: '45 ms',
      better: 'low',
    }),
    vortex_ring_depth: quantity('ratio', 'Share of thrust lost at the deepest point of the vortex ring state.', {
      unit: '',
      least: '0',
      most: '0.8',
      better: 'low',
    }),
    torque_arm: quantity('length', 'Shaft torque over thrust, CP D / (2 pi CT).', {
      unit: 'mm',
      least: '0 mm',
      most: '200 mm',
      standard: '6 mm',
    }),
    dead: chance('Chance that a rotor does not run, for each one.', { standard: '0', each: ROTORS }),
  }),

  battery: section('The pack, and what the wait on the pad takes from it.', {
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
  }),

  pad: section('The wait in the rocket.', {
    wait: quantity('time', 'From power-on to ejection.', { unit: 'min', least: '0 s', most: '1 d', better: 'low' }),
  }),

  ejection: section('How the can leaves the rocket.', {
    height: quantity('length', 'Height above ground at ejection.', { unit: 'm', least: '5 m', most: '5000 m' }),
    horizontal_speed: quantity('speed', 'Horizontal speed over ground at ejection, on each axis.', {
      unit: 'm/s',
      least: '-200 m/s',
      most: '200 m/s',
      standard: '0 m/s',
      each: AXES,
    }),
    vertical_speed: quantity('speed', 'Vertical speed at ejection, upwards positive.', {
      unit: 'm/s',
      least: '-200 m/s',
      most: '200 m/s',
      standard: '0 m/s',
    }),
    east: quantity('length', 'Where it is ejected, east of the planned landing point.', {
      unit: 'm',
      least: '-20 km',
      most: '20 km',
      standard: '0 m',
    }),
    north: quantity('length', 'Where it is ejected, north of the planned landing point.', {
      unit: 'm',
      least: '-20 km',
      most: '20 km',
      standard: '0 m',
    }),
    tumble_rate: quantity(
      'angular rate',
      'Size of the turning rate at ejection; its axis is uniform over all directions.',
      {
        unit: 'deg/s',
        least: '0 deg/s',
        most: '20000 deg/s',
        better: 'low',
      },
    ),
    strength: quantity('acceleration', 'Acceleration that the payload withstands.', {
      unit: 'gee',
      least: '0 gee',
      aboveLeast: true,
      standard: '1000 gee',
      better: 'high',
    }),
    load: quantity('acceleration', 'Peak acceleration of the ejection charge.', {
      unit: 'gee',
      least: '0 gee',
      standard: '0 gee',
      better: 'low',
    }),
    attitude: luck('Attitude at ejection, uniform over all rotations.', ['u1', 'u2', 'u3']),
    tumble_axis: luck('Axis of the tumble, uniform over all directions.', ['u1', 'u2']),
  }),

  arms: section('The rotor arms.', {
    release: choice('When the arms are let go.', {
      'after ejection': 'a fixed delay after ejection',
      'on the order': 'by the throttle-up order',
    }),
    release_delay: quantity('time', 'From that moment to the release.', {
      unit: 's',
      least: '0 s',
      most: '120 s',
      standard: '0 s',
    }),
    opening_time: quantity('time', 'From the release to fully open.', {
      unit: 's',
      least: '0.01 s',
      most: '10 s',
      better: 'low',
    }),
    release_failure: chance('Chance that the common release fails and no arm opens.', { standard: '0' }),
    stuck: chance('Chance that an arm stays shut, for each one.', { standard: '0', each: ARMS }),
  }),

  stabiliser: section('What holds the can upright.', {
    gyro_range: quantity('angular rate', 'Full scale of the gyro on each axis.', {
      unit: 'deg/s',
      least: '50 deg/s',
      most: '20000 deg/s',
      standard: '2000 deg/s',
      better: 'high',
    }),
    gyro_scale_error: quantity('ratio', 'Relative scale error of the gyro.', {
      unit: '',
      least: '-0.5',
      most: '0.5',
      standard: '0',
      better: 'middle',
    }),
    gyro_bias: quantity('angular rate', 'Gyro reading at rest, on each body axis.', {
      unit: 'deg/s',
      least: '-100 deg/s',
      most: '100 deg/s',
      standard: '0 deg/s',
      each: BODY_AXES,
    }),
    starting_error: quantity('angle', 'Tilt by which the attitude estimate is wrong at ejection.', {
      unit: 'deg',
      least: '-180 deg',
      most: '180 deg',
      standard: '0 deg',
      better: 'middle',
    }),
    starting_error_axis: luck('Direction of that error.', ['u1']),
    reference_time: quantity('time', 'Time constant with which the estimate is drawn to the accelerometer near 1 g.', {
      unit: 's',
      least: '0.1 s',
      most: '100 s',
      standard: '2 s',
    }),
    rate_gain: quantity('rate', 'Gain of the rate loop; the product with the motor lag is held at or under 0.6.', {
      unit: '1/s',
      least: '1/s',
      most: '100/s',
      standard: '10/s',
    }),
    attitude_gain: quantity('rate', 'Gain of the attitude loop.', {
      unit: '1/s',
      least: '0.1/s',
      most: '50/s',
      standard: '4/s',
    }),
    largest_rate: quantity('angular rate', 'Largest turning rate that the attitude loop asks for.', {
      unit: 'deg/s',
      least: '10 deg/s',
      most: '2000 deg/s',
      standard: '400 deg/s',
    }),
    upright_tilt: quantity('angle', 'Tilt under which the craft counts as upright.', {
      unit: 'deg',
      least: '1 deg',
      most: '90 deg',
      standard: '30 deg',
    }),
    upright_rate: quantity('angular rate', 'Turning rate under which it counts as upright.', {
      unit: 'deg/s',
      least: '1 deg/s',
      most: '1000 deg/s',
      standard: '90 deg/s',
    }),
    upright_hold: quantity('time', 'How long both must hold.', {
      unit: 's',
      least: '0 s',
      most: '5 s',
      standard: '0.2 s',
    }),
    arming_guard: optionalSection(
      'A guard that arms the motors only when the craft is calm; without the section there is none.',
      {
        rate: quantity('angular rate', 'Arms only under this turning rate.', {
          unit: 'deg/s',
          least: '1 deg/s',
          most: '20000 deg/s',
        }),
        tilt: quantity('angle', 'Arms only under this tilt, as estimated on board.', {
          unit: 'deg',
          least: '1 deg',
          most: '180 deg',
        }),
        hold: quantity('time', 'How long both must hold.', { unit: 's', least: '0 s', most: '10 s', standard: '0 s' }),
      },
    ),
  }),

  pilot: section('Whoever orders the throttle-up and flies the approach.', {
    reaction: quantity('time', 'From the cue to the order.', {
      unit: 's',
      least: '0 s',
      most: '60 s',
      standard: '0 s',
      better: 'low',
    }),
    lapse: chance('Chance that attention is elsewhere when the cue comes.', { standard: '0' }),
    lapse_length: quantity('time', 'How long such a lapse lasts.', {
      unit: 's',
      least: '0 s',
      most: '120 s',
      standard: '3 s',
      better: 'low',
    }),
    call_out: section('The barometric height, for the cues "call-out" and "automatic".', {
      latency: quantity('time', 'Age of the reading when it is heard or used.', {
        unit: 's',
        least: '0 s',
        most: '10 s',
        standard: '0.3 s',
        better: 'low',
      }),
      bias: quantity('length', 'Reading minus true height, apart from temperature and air flow.', {
        unit: 'm',
        least: '-500 m',
        most: '500 m',
        standard: '0 m',
        better: 'low',
      }),
      flow_error: quantity('ratio', 'Share of the dynamic pressure that reads as height; positive reads high.', {
        unit: '',
        least: '-1.5',
        most: '1.5',
        standard: '0',
        better: 'low',
      }),
      noise: quantity('length', 'Standard deviation of the reading noise.', {
        unit: 'm',
        least: '0 m',
        most: '50 m',
        standard: '1 m',
      }),
    }),
    picture: section('The height judged by eye, for the cue "picture".', {
      judgement: quantity('ratio', 'True height over planned height at which the order is given.', {
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
  }),

  link: section('The radio.', {
    delay: quantity('time', 'From the stick to the motors.', {
      unit: 's',
      least: '0 s',
      most: '5 s',
      standard: '0.1 s',
      better: 'low',
    }),
    outage_rate: quantity('rate', 'Outages for each second of flight.', {
      unit: '1/s',
      least: '0/s',
      most: '10/s',
      standard: '0/s',
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
  }),

  video: optionalSection('The video sender, which heats up while waiting; without the section it never fails.', {
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
  }),

  parachute: optionalSection(
    'A back-up parachute that fires by itself; without the section there is none. Carry its mass in can.mass.',
    {
      diameter: quantity('length', 'Diameter of the cloth laid flat.', {
        unit: 'm',
        least: '0.05 m',
        most: '20 m',
        better: 'high',
      }),
      drag_coefficient: quantity('ratio', 'Drag coefficient on the total cloth area.', {
        unit: '',
        least: '0.1',
        most: '2.5',
        standard: '0.75',
        better: 'high',
      }),
      fill_constant: quantity('ratio', 'Fill time is this many diameters over the speed at firing.', {
        unit: '',
        least: '1',
        most: '30',
        standard: '8',
        better: 'low',
      }),
      fire_below: quantity('length', 'Fires under this true height.', { unit: 'm', least: '1 m', most: '5000 m' }),
      fire_faster_than: quantity('speed', 'Fires only when falling faster than this.', {
        unit: 'm/s',
        least: '0 m/s',
        most: '100 m/s',
      }),
      failure: chance('Chance that it does not fire or open.', { standard: '0' }),
    },
  ),

  time_limit: quantity('time', 'A flight still in the air after this time counts as crashed.', {
    unit: 's',
    least: '10 s',
    most: '3600 s',
    standard: '600 s',
    fixed: true,
  }),
});

/** All inputs of one flight: SI numbers, events that happen, choices; null where an optional part is left out. */
export type FlightInputs = FlightValue<typeof SCENARIO>;
