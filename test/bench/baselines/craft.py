"""Constants of many flights at once, from their inputs: sim/MODEL.md in NumPy. SI units, angles in rad.

Every constant is an array whose last axis is the flight. Covers what configs/burdock.yaml uses: no parachute, the cue is
the call-out, the arms are let go after ejection, the open-circuit table is the common one. Four effects are left out, and
`check` asks that they are switched off: the integral term, the fluctuation in the vortex ring, start times of the motors, and
arms that turn about their hinges. Here the arms open at once when the bench says.
"""

import sys
from types import SimpleNamespace

import numpy as np

G = 9.80665  # m/s2
NODE = 0.1  # s between gust nodes
READING = 0.2  # s between nodes of the reading noise

EARTH_RADIUS, GAS = 6356766.0, 287.05307
FOOT = 0.3048

# Rotor centres as multiples of distance/sqrt 2, and the sense of the twist.
ROTOR_X = np.array([1.0, -1.0, -1.0, 1.0])
ROTOR_Y = np.array([1.0, 1.0, -1.0, -1.0])
TWIST = np.array([1.0, -1.0, 1.0, -1.0])

CHARGE = np.array([0, 0.05, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1])
CELL = np.array([3.0, 3.562, 3.691, 3.732, 3.759, 3.792, 3.833, 3.887, 3.955, 4.041, 4.131, 4.2])
# The first slope goes on under an empty pack, down to 0 V.
CHARGE = np.concatenate(([-3.0 / ((CELL[1] - CELL[0]) / CHARGE[1])], CHARGE))
CELL = np.concatenate(([0.0], CELL))


def open_circuit(cells, charge):
    """Open-circuit voltage of the pack, V."""
    return cells * np.interp(charge, CHARGE, CELL)


def reading_scale(formula, temperature, pressure):
    """Metres that an altimeter shows for each geopotential metre above the ground, by its formula."""
    return {
        "standard atmosphere": 288.15 / temperature * (pressure / 101325.0) ** (1 / 5.255876),
        "fixed sea level": 44330.0 * 0.0065 * 0.1903 * 5.255876 / temperature,
        "temperature corrected": np.ones_like(temperature),
    }[formula]


def standard_temperature(z):
    """K at geometric height z m above sea level."""
    return 288.15 - 0.0065 * EARTH_RADIUS * z / (EARTH_RADIUS + z)


def standard_pressure(z):
    return 101325.0 * (standard_temperature(z) / 288.15) ** 5.255876


def ground_pressure(elevation, measured):
    return np.where(np.isnan(measured), standard_pressure(elevation), measured)


def gust_scales(z):
    """Dryden scales at height z m: L_u = L_v and L_w in m, sigma_u over sigma_w."""
    feet = z / FOOT
    low = np.clip(feet, 10.0, 1000.0)
    bracket = (0.177 + 0.000823 * low) ** 0.4
    blend = np.clip(feet / 1000.0 - 1.0, 0.0, 1.0)
    across = low / bracket**3
    ratio = 1.0 / bracket
    return (
        FOOT * (across + blend * (1750.0 - across)),
        FOOT * (low + blend * (1750.0 - low)),
        ratio + blend * (1.0 - ratio),
    )


def column(flights, path):
    """One input of all flights; an input with several values gives one row for each. NaN where it is left out."""
    keys = path.split(".")

    def value(inputs):
        for key in keys:
            inputs = inputs[key]
        return np.nan if inputs is None else inputs

    return np.array([value(inputs) for inputs in flights], dtype=float).T.copy()


def table(flights):
    """The inputs as columns, by path."""
    paths = []

    def walk(inputs, prefix):
        for key, value in inputs.items():
            if isinstance(value, dict):
                walk(value, f"{prefix}{key}.")
            elif not isinstance(value, str) and key not in ("keep_out", "open_circuit"):
                paths.append(prefix + key)

    walk(flights[0], "")
    columns = {path: column(flights, path) for path in paths}
    columns["fail_safe_stops"] = np.full(len(flights), flights[0]["link"]["fail_safe"] == "stop the motors")
    columns["measured_in_the_can"] = np.full(len(flights), flights[0]["rotors"]["thrust_measured"] == "in the can")
    columns["reading_scale"] = reading_scale(
        flights[0]["pilot"]["call_out"]["formula"],
        columns["site.temperature"],
        ground_pressure(columns["site.elevation"], columns["site.pressure"]),
    )
    return columns


def check(inputs):
    """Refuses what these baselines do not fly."""
    left_out = {
        "a parachute": inputs["parachute"] is not None,
        "another cue than the call-out": inputs["plan"]["cue"] != "call-out",
        "arms let go on the order": inputs["arms"]["release"] != "after ejection",
        "an open-circuit table": inputs["battery"]["open_circuit"] is not None,
        "an integral term": inputs["stabiliser"]["integral_gain"] != 0,
        "a fluctuation in the vortex ring": inputs["rotors"]["ring_fluctuation"] != 0,
        "start times of the motors": inputs["rotors"]["start_time"] != 0,
        "arms with hinges of less than 5 N m": inputs["arms"]["hinge_torque"] < 5,
        "hinges with friction": inputs["arms"]["friction"] != 0,
    }
    for what, asked in left_out.items():
        if asked:
            sys.exit(f"These baselines do not fly {what}.")


def craft_of(x, height):
    """Constants of the flights with inputs x (columns by path), for the throttle-up height in m."""
    c = SimpleNamespace()
    count = len(x["can.mass"])

    # Air: density as the cubic through four exact values up to the top (relative error under 1e-7), wind.
    ground = x["site.elevation"]
    at_ground = ground_pressure(ground, x["site.pressure"])
    top = np.maximum(x["ejection.height"], 0.0) + 100.0
    z = ground + np.linspace(0.0, 1.0, 4)[:, None] * top
    temperature = x["site.temperature"] + standard_temperature(z) - standard_temperature(ground)
    rho = at_ground * (temperature / x["site.temperature"]) ** 5.255876 / (GAS * temperature)
    powers = np.vander(np.linspace(0.0, 1.0, 4), increasing=True)
    c.density = np.linalg.solve(powers, rho) / top ** np.arange(4)[:, None]
    c.towards = np.stack([-np.sin(x["wind.from"]), -np.cos(x["wind.from"])])
    c.wind_speed = x["wind.speed"]
    c.wind_exponent = x["wind.shear_exponent"]
    at_20_feet = c.wind_speed * (20 * FOOT / 10.0) ** c.wind_exponent
    c.gust_sigma = 0.1 * at_20_feet * x["wind.gust_factor"]

    # The can: strips by four-point Gauss-Legendre; the drag constants are -Cd A/2, to be multiplied by rho.
    c.mass = x["can.mass"]
    length, diameter, drag = x["can.length"], x["can.diameter"], x["can.drag_factor"]
    slenderness = length / diameter
    side = x["can.side_drag_coefficient"]
    side = np.where(np.isnan(side), np.interp(slenderness, [1, 2, 5, 10], [0.63, 0.68, 0.74, 0.82]), side)
    end = x["can.end_drag_coefficient"]
    end = np.where(np.isnan(end), np.interp(slenderness, [1, 2, 4, 7], [0.91, 0.85, 0.87, 0.99]), end)
    end_area = np.pi * diameter**2 / 4
    nodes, weights = np.polynomial.legendre.leggauss(4)
    c.half, c.middle = length / 2, x["can.middle_above_centre_of_mass"]
    c.strip = c.middle + nodes[:, None] * c.half
    c.strip_drag = -0.5 * drag * side * diameter * weights[:, None] * c.half
    c.end_drag = -0.5 * drag * end * end_area
    c.slender = -x["can.slender_body_factor"] * end_area
    c.tumble = drag * side * diameter * length**3 / 12 * x["can.tumble_floor"]
    solid = np.stack([c.mass * diameter**2 / 8, c.mass * (3 * (diameter / 2) ** 2 + length**2) / 12])
    folded = np.stack([x["can.folded_axial_inertia"], x["can.folded_transverse_inertia"]])
    unfolded = np.stack([x["can.open_axial_inertia"], x["can.open_transverse_inertia"]])
    distance, c.arm_height = x["rotors.distance_from_axis"], x["rotors.height_above_centre_of_mass"]
    arm_mass = 0.05 * c.mass
    added_axial = 4 * arm_mass * (distance**2 - (diameter / 2) ** 2)
    added = np.stack([added_axial, added_axial / 2 + 4 * arm_mass * c.arm_height**2])
    folded = np.where(np.isnan(folded), solid, folded)
    c.axial, c.transverse = folded
    c.added_axial, c.added_transverse = np.where(np.isnan(unfolded), added, unfolded - folded)

    c.open_axial, c.open_transverse = c.axial + c.added_axial, c.transverse + c.added_transverse
    c.centre_x, c.centre_y = x["can.centre_of_mass_offset"]

    # Arms and rotors. How far the can is open once the arms are, and its inertia then: less where an arm stays shut.
    c.release = x["arms.release_delay"]
    c.opened = np.where(x["arms.release_failure"] == 1, np.inf, c.release + x["arms.opening_time"])
    opens = (1 - x["arms.release_failure"]) * (1 - x["arms.stuck"])
    c.openness = opens.mean(axis=0)
    c.spread_axial = c.axial + c.openness * c.added_axial
    c.spread_transverse = c.transverse + c.openness * c.added_transverse
    c.runs = opens * (1 - x["rotors.dead"])
    c.arm_x = distance / np.sqrt(2)
    c.rotor_x, c.rotor_y = ROTOR_X[:, None] * c.arm_x, ROTOR_Y[:, None] * c.arm_x
    arm, blades = x["can.arm_drag_area"], x["can.windmilling_factor"] * x["can.blade_drag_area"]
    c.stopped_drag = -0.5 * drag * opens * (arm + blades)
    c.running_drag = -0.5 * drag * opens * (arm + (1 - c.runs) * blades)
    c.wash = x["can.wash_share"]
    disc = np.pi * x["rotors.diameter"] ** 2 / 4
    # What the controller believes, and the true one: a thrust that was measured in the can lacks the wash on the arm.
    c.believed = x["rotors.thrust_factor"] * x["rotors.bench_thrust"] / x["rotors.bench_density"]
    lacking = np.where(x["measured_in_the_can"], c.wash * drag * arm / (4 * disc), 0.0)
    c.thrust = c.believed / np.maximum(1 - lacking, 0.1)
    c.own_thrust = x["rotors.own_thrust_factor"]
    c.stalled = x["rotors.windmill_power"]
    c.power = x["rotors.bench_power"] / (x["rotors.bench_density"] * x["rotors.bench_voltage"] ** 3)
    c.bench_voltage, c.voltage_exponent = x["rotors.bench_voltage"], x["rotors.voltage_exponent"]
    c.zero_thrust = x["rotors.zero_thrust_speed"] / x["rotors.bench_voltage"]
    c.induced = np.sqrt(c.thrust / (2 * disc))
    c.lag, c.ring_depth, c.torque_arm = x["rotors.motor_lag"], x["rotors.vortex_ring_depth"], x["rotors.torque_arm"]

    # Battery.
    c.cells, c.capacity = x["battery.cells"], x["battery.capacity"]
    c.resistance = x["battery.resistance"] * np.exp(3131 / (273 + x["site.temperature"] - 273.15) - 3131 / 298)
    c.cut_off, c.cut_off_delay = x["battery.cut_off_voltage"], x["battery.cut_off_delay"]
    c.charge = charge_after(c.cells, c.capacity, x["battery.charge_at_arming"], x["battery.standby_power"], x["pad.wait"])
    resting = open_circuit(c.cells, c.charge)
    c.standby = np.where(resting > 0, x["battery.standby_power"] / np.maximum(resting, 1e-9), 0.0)

    # Stabiliser.
    c.gyro_range, c.gyro_scale = x["stabiliser.gyro_range"], 1 + x["stabiliser.gyro_scale_error"]
    c.gyro_bias, c.reference_time = x["stabiliser.gyro_bias"], x["stabiliser.reference_time"]
    c.gate_span = 0.4 * x["stabiliser.reference_gate"]
    c.rate_gain = np.minimum(x["stabiliser.rate_gain"], 0.6 / c.lag)
    c.attitude_gain, c.largest_rate = x["stabiliser.attitude_gain"], x["stabiliser.largest_rate"]
    c.upright_cosine = np.cos(x["stabiliser.upright_tilt"])
    c.upright_rate, c.upright_hold = x["stabiliser.upright_rate"], x["stabiliser.upright_hold"]
    guard = "stabiliser.arming_guard."
    c.guarded = np.full(count, guard + "rate" in x)
    c.guard_rate = x.get(guard + "rate", np.full(count, np.inf))
    c.guard_cosine = np.cos(x.get(guard + "tilt", np.full(count, np.pi)))
    c.guard_hold = x.get(guard + "hold", np.zeros(count))

    # Cue, person, radio.
    c.height = np.full(count, float(height))
    # At the geopotential metres of the height itself.
    c.reading_slope = (EARTH_RADIUS / (EARTH_RADIUS + ground + height / 2)) ** 2 * x["reading_scale"]
    c.reading_bias, c.flow_error = x["pilot.call_out.bias"], x["pilot.call_out.flow_error"]
    c.reading_noise = x["pilot.call_out.noise"]
    person = x["pilot.reaction"] + x["pilot.lapse"] * x["pilot.lapse_length"]
    c.said_after = x["pilot.call_out.latency"] + person
    c.link_delay, c.fail_safe_time = x["link.delay"], x["link.fail_safe_time"]
    c.fail_safe_stops = x["fail_safe_stops"]
    c.outage_rate, c.outage_length = x["link.outage_rate"], x["link.outage_length"]

    # Coming down.
    c.approach_speed, c.touchdown_speed = x["pilot.approach_speed"], x["pilot.touchdown_speed"]
    c.flare, c.response = x["pilot.flare_height"], x["pilot.response_time"]
    c.descent_gain = np.minimum(2.0, 0.5 / c.response)
    c.hand_noise = x["pilot.throttle_noise"]
    c.largest_tangent = np.tan(x["pilot.tilt_limit"])
    c.ground_speed_limit, c.ground_speed_error = x["pilot.ground_speed_limit"], x["pilot.ground_speed_error"]

    # Fate and judgement.
    damaged = x["ejection.load"] > x["ejection.strength"]
    c.can_start = ~damaged & c.runs.any(axis=0)
    c.soft_vertical, c.soft_horizontal = x["criteria.vertical_speed"], x["criteria.horizontal_speed"]
    c.soft_tilt, c.time_limit = x["criteria.tilt"], x["time_limit"]
    return c


def charge_after(cells, capacity, charge, power, wait):
    """State of charge after waiting: ds/dt = -P/(E(s) capacity), sixteen midpoint steps."""
    steps = 16
    for _ in range(steps):
        half = charge - 0.5 * power * wait / (steps * capacity * open_circuit(cells, charge))
        charge = charge - power * wait / (steps * capacity * open_circuit(cells, half))
    return np.maximum(charge, 0.0)


def outages_of(c, units):
    """Begins and ends of the radio's outages, s, from unit-exponential gaps and lengths (2 x outages x flights)."""
    never = np.full((1, c.mass.size), np.inf)
    gaps = units[0] / np.maximum(c.outage_rate, 1e-12)
    lengths = units[1] * c.outage_length
    ends = np.cumsum(gaps + lengths, axis=0)
    return np.concatenate([ends - lengths, never]), np.concatenate([ends, never])


def begin_state(x):
    """State at ejection (16 rows): r, v, q, w, p as in sim/MODEL.md."""
    y = np.empty((16, len(x["can.mass"])))
    y[0], y[1], y[2] = x["ejection.east"], x["ejection.north"], x["ejection.height"]
    y[3:5], y[5] = x["ejection.horizontal_speed"], x["ejection.vertical_speed"]
    # Uniform over all rotations (Shoemake 1992), axis uniform over the sphere (Archimedes).
    u1, u2, u3 = x["ejection.attitude"]
    a, b = np.sqrt(1 - u1), np.sqrt(u1)
    y[6:10] = b * np.cos(2 * np.pi * u3), a * np.sin(2 * np.pi * u2), a * np.cos(2 * np.pi * u2), b * np.sin(2 * np.pi * u3)
    u1, u2 = x["ejection.tumble_axis"]
    along, around = 2 * u1 - 1, 2 * np.pi * (u2 + 0.25)
    ring = np.sqrt(1 - along**2)
    y[10:13] = x["ejection.tumble_rate"] * np.stack([ring * np.cos(around), ring * np.sin(around), along])
    # The estimate: "up" tilted by the starting error in a random direction, in body axes.
    error, side = x["stabiliser.starting_error"], 2 * np.pi * x["stabiliser.starting_error_axis"][0]
    wrong = np.stack([np.sin(error) * np.cos(side), np.sin(error) * np.sin(side), np.cos(error)])
    y[13:16] = np.einsum("ijn,in->jn", rotation(y), wrong)
    return y


def rotation(y):
    """Matrix from body to inertial axes, 3 x 3 x flights."""
    w, a, b, c = y[6:10]
    R = np.empty((3, 3, y.shape[1]))
    a2, b2, c2 = 2 * a, 2 * b, 2 * c
    aa, bb, cc = a * a2, b * b2, c * c2
    ab, ac, bc = a * b2, a * c2, b * c2
    wa, wb, wc = w * a2, w * b2, w * c2
    np.subtract(1 - bb, cc, out=R[0, 0])
    np.subtract(ab, wc, out=R[0, 1])
    np.add(ac, wb, out=R[0, 2])
    np.add(ab, wc, out=R[1, 0])
    np.subtract(1 - aa, cc, out=R[1, 1])
    np.subtract(bc, wa, out=R[1, 2])
    np.subtract(ac, wb, out=R[2, 0])
    np.add(bc, wa, out=R[2, 1])
    np.subtract(1 - aa, bb, out=R[2, 2])
    return R
