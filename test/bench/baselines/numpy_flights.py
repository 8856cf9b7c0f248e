"""Many flights at once in NumPy: one array operation acts on every flight in the air, each at its own time and step.

The equations are those of sim/MODEL.md, the steps those of its section "Numbers" with the constants of
sim/flight/constants.ts: Runge-Kutta of order four, in calm flight under thrust the midpoint rule (exponential in the lag of the
motors where steps are long), steps that end at the nodes 0.1 s apart and at timed events; touchdown and arrest by the dense
output of the step. The last axis of every array is the flight.
SI units.
"""

from types import SimpleNamespace

import numpy as np
from craft import (
    G,
    NODE,
    READING,
    ROTOR_X,
    ROTOR_Y,
    TWIST,
    begin_state,
    craft_of,
    gust_scales,
    open_circuit,
    outages_of,
    rotation,
)

SOFT, HARD, CRASH, NUMERICAL = range(4)
FALLING, RUNNING, LANDED, DIVERGED, IN_THE_AIR = range(5)  # where a flight is
LIVE, HELD, ITSELF = range(3)  # who flies: the pilot, the last command, the craft by itself
NEVER = np.inf

# Sums over the four rotors: plain, times x sign, times y sign, times twist.
SUMS = np.stack([np.ones(4), ROTOR_X, ROTOR_Y, TWIST])

# Flights that are done go on at step 0 until they are this share of the arrays; then they are dropped.
DROPPED_SHARE = 1 / 16
# When so few of a stretch are left, the stretch after it takes them along.
LEFT_SHARE = 1 / 16

# What changes on the way; all else of a flight is constant.
STATE = (
    "y t where node wind wind_step gust lengths hand_from hand_to reading ready watching guard_since stopped spread "
    "arrested approaching upright stick stick_until tilt margin upright_since below_since running_time voltage current "
    "height_before rise_before"
).split()


def fly(x, noise, height, steps):
    """Outcome, touchdown speed (m/s) and time (s) of every flight; x: inputs as columns, by path; steps: constants of the steps.

    All fall until their motors start or they meet the ground. Then all that started fly on: with steps of order four until
    they are settled, with midpoint steps while they are, once more so, and with steps of order four to the end.
    """
    everyone = begin(x, noise, height)
    everyone.long_lags = steps["CALM_LAGS"]
    with np.errstate(all="ignore"):
        while (everyone.where <= RUNNING).any():  # once more where motors were stopped in the air
            fly_stretch(everyone, noise, steps, FALL, None)
            for settled in (False, True, False, True, None):
                fly_stretch(everyone, noise, steps, POWERED, settled)
    return judge(everyone)


def select(flights, chosen):
    """The chosen flights alone."""
    return SimpleNamespace(**{n: v if np.isscalar(v) else v[..., chosen] for n, v in vars(flights).items()})


def begin(x, noise, height):
    """Constants and state of the flights at ejection."""
    f = craft_of(x, height)
    n = f.mass.size
    f.id = np.arange(n)
    f.first_node, f.last_node = x["noise.first_node"], x["noise.last_node"]
    f.first_reading, f.last_reading = x["noise.first_reading"], x["noise.last_reading"]
    f.outage_begin, f.outage_end = outages_of(f, x["noise.outages"])

    f.y = np.zeros((22, n))
    f.y[:16] = begin_state(x)
    f.t, f.where, f.node = np.zeros(n), np.full(n, FALLING), np.full(n, -1)
    *gust, f.hand_to = noise.nodes[f.first_node].T
    f.gust, f.hand_to = np.stack(gust), f.hand_noise * f.hand_to
    across, up, ratio = gust_scales(f.y[2])
    f.lengths = np.stack([across, up])
    f.wind = wind_at(f, f.y[2], f.gust, ratio)
    f.wind_step, f.hand_from = np.zeros((3, n)), np.zeros(n)
    f.tilt, f.voltage, f.margin = np.zeros((2, n)), np.zeros(n), np.zeros(n)
    f.current, f.height_before, f.rise_before = np.zeros(n), np.zeros(n), np.zeros(n)
    f.stick = np.full(n, LIVE)
    f.watching, f.stopped, f.spread, f.arrested, f.approaching, f.upright = (np.zeros(n, bool) for _ in range(6))
    for name in ("reading", "ready", "guard_since", "stick_until", "upright_since", "below_since", "running_time"):
        setattr(f, name, np.full(n, NEVER))
    return f


# ---- The course of a flight: nodes, timed events, steps, events of the state.


def fly_stretch(everyone, noise, steps, course, settled):
    """Flies all that are on this course, to its end (None), or while they are settled or not, as told."""
    chosen = np.flatnonzero(everyone.where == course.where)
    if settled is not None and chosen.size:
        chosen = chosen[settled_now(select(everyone, chosen), steps) == settled]
    if chosen.size == 0:
        return
    f = select(everyone, chosen)
    gone = np.zeros(f.t.size, bool)
    room = Room(course.rows, f.t.size)
    left = 0 if settled is None else LEFT_SHARE * chosen.size
    if course is POWERED:
        start_motors(f, np.flatnonzero(f.running_time == NEVER))
    while True:
        at = np.flatnonzero((f.t >= NODE * (f.node + 1)) & ~gone)
        if at.size:
            next_air(f, noise, at)
        course.apply_timed(f)
        f.where[f.t >= f.time_limit] = IN_THE_AIR

        leaving = (f.where != course.where) & ~gone
        if settled is not None:
            leaving |= (settled_now(f, steps) != settled) & ~gone
        if leaving.any():
            put_back(everyone, f, leaving)
            gone |= leaving
            stay = np.flatnonzero(~gone)
            if stay.size <= left:
                put_back(everyone, f, stay)
                return
            if stay.size <= (1 - DROPPED_SHARE) * gone.size:
                f, gone = select(f, stay), gone[stay]
                room = Room(course.rows, stay.size)

        # A step for each flight: equal parts of the way to its next node or timed event.
        until = np.minimum(NODE * (f.node + 1), course.next_timed(f))
        parts = np.maximum(np.ceil((until - f.t) / course.largest_step(f, steps) - 1e-9), 1.0)
        h = np.where(gone, 0.0, (until - f.t) / parts)
        then = np.where(parts == 1.0, until, f.t + h)
        course.step(f, room, h, then, settled)


def put_back(everyone, f, which):
    for name in STATE:
        getattr(everyone, name)[..., f.id[which]] = getattr(f, name)[..., which]


class Room:
    """Arrays for one step of n flights with so many states, kept from step to step."""

    def __init__(self, rows, n):
        self.rows = rows
        self.start, self.probe = np.empty((rows, n)), np.empty((rows, n))
        self.k = np.empty((4, rows, n))


def integrate(rates, f, room, h, settled, long_lags=np.inf):
    """One step of h s from f.t, f.y into f.y: midpoint rule if settled, else Runge-Kutta of order four.

    Midpoint steps of more than `long_lags` lags of the motors solve the lag exactly for a command that goes linearly.
    """
    start, probe, k = room.start, room.probe, room.k
    y = f.y[: room.rows]
    start[:] = y
    half = 0.5 * h
    rates(f, start, f.t, k[0])
    np.multiply(k[0], half, out=probe)
    probe += start
    if settled:
        lags = h / f.lag
        long = np.flatnonzero(lags > long_lags)
        if long.size:
            lag, lags = f.lag[long], lags[long]
            decay = np.exp(-0.5 * lags)
            probe[16:20, long] = start[16:20, long] + lag * (1 - decay) * k[0, 16:20, long].T
        rates(f, probe, f.t + half, k[1])
        np.multiply(k[1], h, out=y)
        y += start
        if long.size:
            decay *= decay
            first, second = k[0, 16:20, long].T, k[1, 16:20, long].T
            change = probe[16:20, long] - start[16:20, long] + lag * (second - first)
            y[16:20, long] = start[16:20, long] + lag * (1 - decay) * first + 2 * (decay - 1 + lags) / lags * change
    else:
        rates(f, probe, f.t + half, k[1])
        np.multiply(k[1], half, out=probe)
        probe += start
        rates(f, probe, f.t + half, k[2])
        np.multiply(k[2], h, out=probe)
        probe += start
        rates(f, probe, f.t + h, k[3])
        np.add(k[1], k[2], out=y)
        y *= 2
        y += k[0]
        y += k[3]
        y *= h / 6
        y += start
    y[6:10] /= length(y[6:10])


def dense(room, h, settled, at):
    """Coefficients of the step's dense output y(x) = a0 + a1 x + a2 x^2 + a3 x^3, x in 0..1, for flights `at`.

    Of order three for the Runge-Kutta method (Zennaro, Math. Comp. 46:119, 1986), two for the midpoint rule.
    """
    start = room.start[:, at]
    k = h[at] * room.k[:, :, at]
    if settled:
        return np.stack([start, k[0], k[1] - k[0], np.zeros_like(start)])
    inner = k[1] + k[2]
    return np.stack([start, k[0], inner - 1.5 * k[0] - 0.5 * k[3], (2 * k[0] - 2 * inner + 2 * k[3]) / 3])


def cubic(a, x):
    return a[0] + x * (a[1] + x * (a[2] + x * a[3]))


def crossing(a, level):
    """Where the cubic comes down, or up, to the level within 0..1, by Newton's method from the secant."""
    x = np.clip((level - a[0]) / (a[1] + a[2] + a[3]), 0.0, 1.0)
    for _ in range(6):
        x = np.clip(x - (cubic(a, x) - level) / (a[1] + x * (2 * a[2] + x * 3 * a[3])), 0.0, 1.0)
    return x


def end_step(f, a, x, h, then, at):
    """Ends the step of flights `at` at its share x by the dense output a; `then` are the times of the steps' ends."""
    y = cubic(a, x)
    y[6:10] /= length(y[6:10])
    f.y[: len(y), at] = y
    then[at] = f.t[at] + x * h[at]


def land(f, at):
    f.where[at] = np.where(diverged(f.y[:, at]) | (f.y[5, at] > 0), DIVERGED, LANDED)


def diverged(y):
    fast = ~(np.abs(y[3:6]) < 1e3).all(axis=0)
    return fast | ~(np.abs(y[10:13]) < 2e3).all(axis=0) | ~np.isfinite(y[2])


def length(v):
    return np.sqrt(np.einsum("in,in->n", v, v))


def turning_rate(y):
    return length(y[10:13])


def held_since(since, before, margin_before, now, margin):
    """When a condition began to hold, from its margins at the ends of a step, linear between; infinite if it does not."""
    began = before + (now - before) * -margin_before / (margin - margin_before)
    began = np.where(margin_before < 0, began, now)
    return np.where(margin >= 0, np.where(since == NEVER, began, since), NEVER)


# ---- Wind, gusts and the call-out, at the nodes of each flight's clock.


def wind_at(f, z, gust, ratio):
    along = f.wind_speed * (np.maximum(z, 0.1) / 10.0) ** f.wind_exponent + f.gust_sigma * ratio * gust[0]
    across = f.gust_sigma * ratio * gust[1]
    east, north = f.towards
    return np.stack([along * east - across * north, along * north + across * east, f.gust_sigma * gust[2]])


def next_air(f, noise, at):
    """The flights `at` stand at a node: works out the wind one node on; those that fall listen to the call-out."""
    g = SimpleNamespace(
        **{name: getattr(f, name)[..., at] for name in ("wind_speed", "wind_exponent", "gust_sigma", "towards")}
    )
    y = f.y[:6, at]
    node = f.node[at] + 1
    wind = f.wind[:, at] + f.wind_step[:, at]
    airspeed = length(y[3:] - wind)
    fresh = noise.nodes[np.minimum(f.first_node[at] + node + 1, f.last_node[at])].T
    exponent = np.maximum(airspeed, 1.0) * NODE / f.lengths[:, at]
    across, up = np.exp(-exponent)
    kept = np.stack([across, across, up])
    gust = kept * f.gust[:, at] + np.sqrt(1 - kept * kept) * fresh[:3]
    z = y[2] + NODE * y[5]
    across, up, ratio = gust_scales(z)
    f.node[at] = node
    f.gust[:, at] = gust
    f.lengths[0, at], f.lengths[1, at] = across, up
    f.wind[:, at] = wind
    f.wind_step[:, at] = wind_at(g, z, gust, ratio) - wind
    f.hand_from[at] = f.hand_to[at]
    f.hand_to[at] = f.hand_noise[at] * fresh[3]

    lost = at[diverged(f.y[:, at])]
    f.where[lost] = DIVERGED
    listening = (f.where[at] == FALLING) & (f.ready[at] == NEVER) & ~f.watching[at] & ~f.stopped[at]
    if listening.any():
        listen(f, noise, at[listening], node[listening], airspeed[listening])


def listen(f, noise, at, node, airspeed):
    """Barometric reading at this node; the first one at or under the height gives the order."""
    x = NODE * node / READING
    whole = np.floor(x).astype(int)
    here = np.minimum(f.first_reading[at] + whole, f.last_reading[at])
    after = np.minimum(here + 1, f.last_reading[at])
    unsteady = noise.readings[here] + (x - whole) * (noise.readings[after] - noise.readings[here])
    before = f.reading[at]
    now = f.y[2, at] * f.reading_slope[at] + f.reading_bias[at]
    now += f.flow_error[at] * airspeed**2 / (2 * G) + f.reading_noise[at] * unsteady
    f.reading[at] = now
    z0, rise0 = f.height_before[at], f.rise_before[at]
    z1, rise1 = f.y[2, at], NODE * f.y[5, at]
    f.height_before[at], f.rise_before[at] = z1, rise1
    height = f.height[at]
    cued = (now <= height) & (before > height)
    if not cued.any():
        return
    at, node, now, before, height = at[cued], node[cued], now[cued], before[cued], height[cued]
    # Between nodes the height is a cubic: it bulges above its chord, and the reading with it.
    early, late = (rise0 - z1 + z0)[cued], (rise1 - z1 + z0)[cued]
    share = (before - height) / (before - now)
    for _ in range(2):
        bulge = share * (1 - share) * ((1 - share) * early - share * late)
        share = np.clip((before - height + f.reading_slope[at] * bulge) / (before - now), 0.0, 1.0)
    cue = NODE * np.where(node == 0, 0.0, node - 1 + share)
    said = cue + f.said_after[at]
    order = through(f, at, said) + f.link_delay[at]
    ready = np.maximum(order, f.opened[at])
    # A delay under 0.1 s could put the order before this node; the motors then start here.
    f.ready[at] = np.where(f.can_start[at], np.maximum(ready, f.t[at]), NEVER)


def through(f, at, time):
    """When an order given at `time` gets through: at once, or as the outage then on ends."""
    inside = (f.outage_begin[:, at] <= time) & (time < f.outage_end[:, at])
    return np.where(inside, f.outage_end[:, at], time).max(axis=0)


# ---- The fall, motors off.


def fall_largest_step(f, steps):
    turning = turning_rate(f.y)
    opened = steps["LARGEST_TURN"] / (turning + steps["OPEN_SWING"])
    turn = np.where(f.release < steps["EARLY_RELEASE"], steps["EARLY_FOLDED_TURN"], steps["FOLDED_TURN"])
    return np.where(f.spread, opened, turn / (turning + steps["FOLDED_SWING"]))


def fall_next_timed(f):
    arms = np.where(f.spread, NEVER, f.opened)
    return np.minimum(arms, np.minimum(f.ready, f.guard_since + f.guard_hold))


def fall_apply_timed(f):
    at = np.flatnonzero((f.opened <= f.t) & ~f.spread)
    if at.size:
        spread_arms(f, at)
    ready = f.ready <= f.t
    f.where[ready & ~f.guarded] = RUNNING
    if f.guarded.any():
        at = np.flatnonzero(ready & f.guarded)
        f.ready[at], f.watching[at] = NEVER, True
        f.margin = guard_margin(f)
        f.guard_since[at] = np.where(f.margin[at] >= 0, f.t[at], NEVER)
        f.where[f.guard_since + f.guard_hold <= f.t] = RUNNING


def spread_arms(f, at):
    """The arms are open, at once: the angular momentum stays."""
    f.spread[at] = True
    f.y[10:12, at] *= f.transverse[at] / f.spread_transverse[at]
    f.y[12, at] *= f.axial[at] / f.spread_axial[at]


def guard_margin(f):
    """Over 0 while the stabiliser's own estimate of "up" and its gyro are within the guard's limits."""
    p = f.y[13:16]
    tilt = (p[2] / length(p) - f.guard_cosine) / (1 - f.guard_cosine)
    return np.minimum(tilt, 1 - length(gyro_reading(f, f.y[10:13])) / f.guard_rate)


def fall_step(f, room, h, then, settled):
    integrate(fall_rates, f, room, h, settled)
    landing = np.flatnonzero((f.y[2] <= 0) & (h > 0))
    if landing.size:
        a = dense(room, h, settled, landing)
        end_step(f, a, crossing(a[:, 2], 0.0), h, then, landing)
        land(f, landing)
    if f.watching.any():
        before, f.margin = f.margin, guard_margin(f)
        since = held_since(f.guard_since, f.t, before, then, f.margin)
        f.guard_since = np.where(f.watching & (h > 0), since, NEVER)
    f.t = then


# ---- Powered flight.


def start_motors(f, at):
    """The motors start from rest at the voltage without load."""
    f.running_time[at] = f.t[at]
    f.y[16:20, at] = 0.0
    f.y[20, at] = f.standby[at] * f.t[at]
    f.y[21, at] = 0.0
    f.current[at] = f.standby[at]
    f.voltage[at] = open_circuit(f.cells[at], f.charge[at] - f.y[20, at] / f.capacity[at])
    f.stick_until[at] = f.t[at]
    f.margin = upright_margin(f)
    f.upright_since[at] = np.where(f.margin[at] >= 0, f.t[at], NEVER)
    risen = at[f.y[5, at] >= -f.approach_speed[at]]
    f.arrested[risen] = True
    begin_approach(f, risen)


def calm(f, steps):
    return f.upright & (turning_rate(f.y) < steps["BUSY_RATE"])


def settled_now(f, steps):
    """Upright and calm, braking or flown by hand."""
    return calm(f, steps) & (f.approaching | (turning_rate(f.y) < steps["SETTLED_TURNING"]))


def powered_largest_step(f, steps):
    usual = np.minimum(steps["POWERED_STEP"], steps["CALM_LAGS"] * f.lag)
    high = f.approaching & (f.y[2] > f.flare + steps["NEAR_GROUND"])
    loops = steps["LOOP_STEPS"] / (f.rate_gain + f.attitude_gain)
    long = np.minimum(np.minimum(steps["APPROACH_STEP"], loops), f.response)
    busy = np.minimum(steps["BUSY_STEP"], steps["BUSY_LAGS"] * f.lag)
    largest = np.where(calm(f, steps), np.where(high, np.maximum(usual, long), usual), busy)
    return np.minimum(largest, steps["LARGEST_TURN"] / np.maximum(turning_rate(f.y), 1e-9))


def powered_next_timed(f):
    held = np.where(f.upright, NEVER, f.upright_since + f.upright_hold)
    return np.minimum(np.minimum(f.stick_until, f.below_since + f.cut_off_delay), held)


def powered_apply_timed(f):
    at = np.flatnonzero(f.stick_until <= f.t)
    if at.size:
        move_stick(f, at)
    f.upright |= f.upright_since + f.upright_hold <= f.t
    empty = f.below_since + f.cut_off_delay <= f.t
    if empty.any():
        stop_motors(f, np.flatnonzero(empty))


def stop_motors(f, at):
    f.where[at] = FALLING
    f.stopped[at] = True
    f.ready[at] = f.guard_since[at] = NEVER
    f.watching[at] = False


def move_stick(f, at):
    """Who flies now, as the radio allows, and until when."""
    t = f.t[at]
    which = (f.outage_end[:, at] <= t).sum(axis=0)
    begins, ends = f.outage_begin[which, at], f.outage_end[which, at]
    fail_safe = np.maximum(begins, f.running_time[at]) + f.fail_safe_time[at]
    live, held = begins > t, fail_safe > t
    f.stick[at] = np.where(live, LIVE, np.where(held, HELD, ITSELF))
    f.stick_until[at] = np.where(live, begins, np.where(held, np.minimum(fail_safe, ends), ends))
    stops = ~live & ~held & f.fail_safe_stops[at]
    stop_motors(f, at[stops])
    begin_approach(f, at[f.arrested[at] & ~f.approaching[at] & ~stops])


def begin_approach(f, at):
    """The hand takes over where full throttle stood, unless the link is down."""
    at = at[f.stick[at] != HELD]
    g = select(f, at)
    full = full_thrust(g, g.believed, density_at(g, g.y[2]), g.voltage)
    f.approaching[at] = True
    f.y[21, at] = np.clip(4 * full / g.mass - G, -5, 5)


def upright_margin(f):
    y = f.y
    tilt = (1 - 2 * (y[7] * y[7] + y[8] * y[8]) - f.upright_cosine) / (1 - f.upright_cosine)
    return np.minimum(tilt, 1 - turning_rate(y) / f.upright_rate)


def powered_step(f, room, h, then, settled):
    # Voltage without load is that of the step's middle, induced and zero-thrust speed those of its start.
    f.open_circuit = open_circuit(f.cells, f.charge - (f.y[20] + 0.5 * h * f.current) / f.capacity)
    f.step_voltage = f.voltage
    integrate(powered_rates, f, room, h, settled, f.long_lags)

    moved = h > 0
    down = (f.y[2] <= 0) & moved
    slow = ~f.arrested & (room.start[5] < -f.approach_speed) & (f.y[5] >= -f.approach_speed) & moved
    if slow.any() or down.any():
        at = np.flatnonzero(slow | down)
        a = dense(room, h, settled, at)
        ground = np.where(down[at], crossing(a[:, 2], 0.0), 2.0)
        arrest = np.where(slow[at], crossing(a[:, 5], -f.approach_speed[at]), 2.0)
        first = arrest < ground
        end_step(f, a, np.minimum(arrest, ground), h, then, at)
        land(f, at[~first])
        f.arrested[at[first]] = True
        begin_approach(f, at[first])

    if not f.upright.all():
        margin = upright_margin(f)
        since = held_since(f.upright_since, f.t, f.margin, then, margin)
        f.upright_since = np.where(moved, since, f.upright_since)
        f.margin = margin
    below = f.cut_off - f.voltage
    if (below >= 0).any():
        late = 0.5 * h if settled else 0.0  # the midpoint rule found the voltage half a step ago
        f.below_since = held_since(f.below_since, f.t - late, f.cut_off - f.step_voltage, then - late, below)
    else:
        f.below_since.fill(NEVER)
    f.t = then


# ---- Equations of motion. y: r, v, q, w, p and, powered, c, Q, b; see sim/MODEL.md.


def fall_rates(f, y, t, dy):
    R, u, w, rho = meet_stream(f, y, t)
    F, M = can_load(f, u, w, 1 - f.spread * f.openness)
    add_arms(f, F, M, arms_stream(f, u, w), f.stopped_drag * f.spread, None)
    F *= rho
    M *= rho
    move_centre(f, F, M)
    accelerate(f, R, F, y, dy)
    axial = np.where(f.spread, f.spread_axial, f.axial)
    transverse = np.where(f.spread, f.spread_transverse, f.transverse)
    turn(y, M, axial, transverse, dy)
    estimate(f, R, F, y, gyro_reading(f, w), dy)


def powered_rates(f, y, t, dy):
    """The motors run only with open arms."""
    R, u, w, rho = meet_stream(f, y, t)
    F, M = can_load(f, u, w, 1 - f.openness if (f.openness < 1).any() else None)
    stream = arms_stream(f, u, w)
    inflow = inflow_at(f, y[16:20], stream[2])
    add_arms(f, F, M, stream, f.running_drag, inflow.wash)
    F *= rho
    M *= rho
    add_rotors(f, F, M, y[16:20], inflow, rho, dy)
    move_centre(f, F, M)
    accelerate(f, R, F, y, dy)
    turn(y, M, f.spread_axial, f.spread_transverse, dy)
    gyro = gyro_reading(f, w)
    estimate(f, R, F, y, gyro, dy)

    full = np.maximum(full_thrust(f, f.believed, rho, f.voltage), 1e-6)
    wanted = y[13:16]
    collective = np.ones_like(rho)
    dy[21] = 0.0
    if f.approaching.any():
        collective = np.where(f.approaching, hold_descent(f, y, t, full, dy), 1.0)
        wanted = wanted + tilt_home(f, R, y)
    order_thrust(f, wanted, gyro, collective, full, y, dy)


def density_at(f, z):
    d = f.density
    return d[0] + z * (d[1] + z * (d[2] + z * d[3]))


def meet_stream(f, y, t):
    """Matrix from body to inertial axes, velocity through the air and turning rate (body axes), density."""
    R = rotation(y)
    through = y[3:6] - f.wind
    through -= (t * (1 / NODE) - f.node) * f.wind_step
    return R, np.einsum("ijn,in->jn", R, through), y[10:13], density_at(f, y[2])


def can_load(f, u, w, folded):
    """Force and moment of the air on the can, over rho: strips, end, slender body, driven tumble while folded."""
    F, M = np.empty_like(u), np.empty_like(u)
    # The strips' local velocities across the axis.
    vx = u[0] + f.strip * w[1]
    vy = u[1] - f.strip * w[0]
    drag = f.strip_drag * np.sqrt(vx * vx + vy * vy)
    vx *= drag
    vy *= drag
    np.sum(vx, axis=0, out=F[0])
    np.sum(vy, axis=0, out=F[1])
    np.einsum("kn,kn->n", f.strip, vx, out=M[1])
    np.einsum("kn,kn->n", f.strip, vy, out=M[0])

    across2 = u[0] * u[0] + u[1] * u[1]
    along = np.abs(u[2])
    np.multiply(f.end_drag * along, u[2], out=F[2])
    speed = np.sqrt(across2 + along * along)
    slender = f.slender * along * np.sqrt(0.5 + 0.5 * along / np.maximum(speed, 1e-9))
    leading = (f.middle + np.copysign(f.half, u[2])) * slender
    F[0] += slender * u[0]
    F[1] += slender * u[1]
    M[1] += leading * u[0]
    M[0] += leading * u[1]
    np.negative(M[0], out=M[0])
    M[2] = 0.0
    if folded is not None:
        drive = folded * f.tumble * np.sqrt(across2) / (np.sqrt(w[0] * w[0] + w[1] * w[1]) + 1e-3)
        M[0] += drive * w[0]
        M[1] += drive * w[1]
    return F, M


def arms_stream(f, u, w):
    """Velocity through the air of the four rotor centres, body axes."""
    h = f.arm_height
    vx = (u[0] + w[1] * h) - f.rotor_y * w[2]
    vy = (u[1] - w[0] * h) + f.rotor_x * w[2]
    vz = u[2] + f.rotor_y * w[0] - f.rotor_x * w[1]
    return vx, vy, vz


def add_arms(f, F, M, stream, drag, wash):
    """Drag at the four rotor centres, over rho; a share of it with the wash of the rotors (m/s) added to the stream."""
    h, a = f.arm_height, f.arm_x
    vx, vy, vz = stream
    across2 = vx * vx + vy * vy
    k = drag * np.sqrt(across2 + vz * vz)
    kz = k * vz
    if wash is not None:
        washed = vz + wash
        q = f.wash * drag * np.sqrt(across2 + washed * washed)
        k *= 1 - f.wash
        kz *= 1 - f.wash
        k += q
        kz += q * washed
    x, _, x_by_y, _ = SUMS @ (k * vx)
    y, y_by_x, _, _ = SUMS @ (k * vy)
    z, z_by_x, z_by_y, _ = SUMS @ kz
    F[0] += x
    F[1] += y
    F[2] += z
    M[0] += a * z_by_y - h * y
    M[1] += h * x - a * z_by_x
    M[2] += a * (y_by_x - x_by_y)


def move_centre(f, F, M):
    """From the point on the axis to the centre of mass: M - d x F."""
    M[0] -= f.centre_y * F[2]
    M[1] += f.centre_x * F[2]
    M[2] -= f.centre_x * F[1] - f.centre_y * F[0]


def full_thrust(f, constant, rho, voltage):
    """Static thrust of one rotor at full throttle, N; the constant is the true one or the believed one."""
    root = voltage_root(f, voltage)
    return constant * rho * root * root


def voltage_root(f, voltage):
    """Root of the thrust ratio for a voltage, which scales the induced speed."""
    ratio = voltage / f.bench_voltage
    return ratio if (f.voltage_exponent == 2).all() else ratio ** (0.5 * f.voltage_exponent)


def inflow_at(f, c, climb):
    """Of the rotors at thrust fractions c: climb speed, climb ratio X, induced speed n over v_h, and wash n v_h, m/s."""
    root = np.sqrt(np.maximum(c, 1e-12))
    hover = root * (f.induced * voltage_root(f, f.step_voltage))
    X = climb / hover
    # Momentum theory climbing and beyond X = -2, between them Leishman's quartic, bent from -1.8 on to end at 1.
    sign = np.where(X >= 0, 1.0, -1.0)
    n = -0.5 * X + sign * np.sqrt(np.maximum(0.25 * X * X + sign, 0.0))
    down = np.clip(X, -2.0, 0.0)
    u = np.maximum((-1.8 - down) * (1 / 0.2), 0.0)
    quartic = 1 + down * (-1.125 + down * (-1.372 + down * (-1.718 + down * -0.655))) - 0.026 * u * u * (3 - 2 * u)
    n = np.where((X < 0) & (X > -2), quartic, n)
    return SimpleNamespace(root=root, climb=climb, X=X, n=n, wash=np.where(c > 1e-6, n * hover, 0.0))


def add_rotors(f, F, M, c, inflow, rho, dy):
    """Thrust and twist of the rotors at thrust fractions c, and the pack under their power."""
    root, climb, X = inflow.root, inflow.climb, inflow.X
    u = np.clip(-X - 1, 0.0, 1.0)
    factor = 0.4 + 0.6 * np.maximum(X + inflow.n, 0.0) + (f.stalled - 0.4) * (u * u * (3 - 2 * u))
    J = f.power * rho * np.einsum("kn,kn->n", c * root, factor)
    e = np.maximum(f.open_circuit - f.resistance * f.standby, 0.0)
    f.voltage = V = 2 * e / (1 + np.sqrt(1 + 4 * J * f.resistance * e))
    f.current = dy[20] = J * V * V + f.standby

    # Thrust in shares of the full static one: ring loss descending, climb curve climbing.
    ratio = np.maximum(climb, 0.0) / (f.zero_thrust * f.step_voltage)
    u = np.clip(np.minimum(-X - 0.5, 2 + X) * (1 / 0.75), 0.0, 1.0)
    share = c * (1 - f.ring_depth * (u * u * (3 - 2 * u)))
    share -= f.runs * ratio * (0.5705 * root + 0.4295 * ratio)
    share *= f.own_thrust
    total, by_x, by_y, twist = full_thrust(f, f.thrust, rho, V) * (SUMS @ share)
    F[2] += total
    M[0] += f.arm_x * by_y
    M[1] -= f.arm_x * by_x
    M[2] += f.torque_arm * twist


def accelerate(f, R, F, y, dy):
    """Newton; F becomes the specific force."""
    F /= f.mass
    dy[0:3] = y[3:6]
    np.einsum("ijn,jn->in", R, F, out=dy[3:6])
    dy[5] -= G


def turn(y, M, axial, transverse, dy):
    """Euler, for a body symmetric about its axis."""
    a, b, c, d = y[6:10]
    x, y_, z = y[10:13]
    dy[6] = -0.5 * (b * x + c * y_ + d * z)
    dy[7] = 0.5 * (a * x + c * z - d * y_)
    dy[8] = 0.5 * (a * y_ + d * x - b * z)
    dy[9] = 0.5 * (a * z + b * y_ - c * x)
    coupling = (axial - transverse) * z
    np.divide(M[0] - coupling * y_, transverse, out=dy[10])
    np.divide(M[1] + coupling * x, transverse, out=dy[11])
    np.divide(M[2], axial, out=dy[12])


def gyro_reading(f, w):
    gyro = f.gyro_scale * w
    gyro += f.gyro_bias
    return np.clip(gyro, -f.gyro_range, f.gyro_range, out=gyro)


def estimate(f, R, specific, y, gyro, dy):
    """The stabiliser's estimate of "up"."""
    gx, gy, gz = gyro
    px, py, pz = y[13:16]
    size = length(specific)
    weight = np.clip(3.0 - np.abs(size / G - 1) / f.gate_span, 0.0, 1.0) / f.reference_time
    dp = dy[13:16]
    np.multiply(weight / np.maximum(size, 1e-9), specific, out=dp)
    dp -= (weight + f.upright) * y[13:16]
    dp += f.upright * R[2]
    dp[0] += gz * py - gy * pz
    dp[1] += gx * pz - gz * px
    dp[2] += gy * px - gx * py


def hold_descent(f, y, t, full, dy):
    """Collective that the hand gives; the lag of the hand into dy[21]."""
    z, hand = y[2], y[21]
    live = f.stick == LIVE
    half = 0.5 * f.flare
    near = np.where(live, np.clip((z - half) / np.maximum(half, 1e-9), 0.0, 1.0), 1.0)
    wanted = f.touchdown_speed + near * (f.approach_speed - f.touchdown_speed)
    unsteady = np.where(live, f.hand_from + (t * (1 / NODE) - f.node) * (f.hand_to - f.hand_from), 0.0)
    lift = np.clip(f.descent_gain * (-y[5] - wanted) + unsteady, -5, 5)
    dy[21] = np.where(f.approaching & (f.stick != HELD), (lift - hand) / f.response, 0.0)
    return f.mass * (G + hand) / (4 * full * np.maximum(y[15], 0.7))


def tilt_home(f, R, y):
    """What the pilot's tilt adds to the wanted thrust direction, body axes; keeps the tilt for an outage."""
    home = -0.3 * y[0:2]
    home *= np.minimum(1.0, f.ground_speed_limit / np.maximum(length(home), 1e-9))
    blend = np.clip((y[2] - f.flare) / np.maximum(f.flare, 1e-9), 0.0, 1.0)
    tangents = (f.ground_speed_error + blend * (home - f.ground_speed_error) - y[3:5]) * (1 / G)
    yaw_allows = np.clip(9.0 - np.abs(y[12]) * (18 / np.pi), 0.0, 1.0)  # 1 to 80 deg/s, 0 from 90 deg/s
    tangents *= yaw_allows * np.minimum(1.0, f.largest_tangent / np.maximum(length(tangents), 1e-9))
    f.tilt = np.where(f.approaching & (f.stick == LIVE), tangents, f.tilt)
    tilt = f.tilt * (f.approaching & (f.stick != ITSELF))
    return np.einsum("ijn,in->jn", R[:2], tilt)


def order_thrust(f, wanted, gyro, collective, full, y, dy):
    """Attitude loop, rate loop and mixer, which go by the inertia with open arms; the motors follow with their lag."""
    tx, ty, tz = wanted
    across2 = tx * tx + ty * ty
    scale = 2 * f.attitude_gain / np.maximum(np.sqrt(across2 + tz * tz) + tz, 1e-12)
    scale = np.minimum(scale, f.largest_rate / np.maximum(np.sqrt(across2), 1e-300))
    per_moment = f.rate_gain * f.open_transverse / (4 * full * f.arm_x)
    roll = per_moment * (-ty * scale - gyro[0])
    pitch = per_moment * (tx * scale - gyro[1])
    yaw = -f.rate_gain * f.open_axial * gyro[2] / (4 * full * np.maximum(f.torque_arm, 1e-9)) * (f.torque_arm > 0)

    reach = np.abs(roll) + np.abs(pitch)
    k = np.minimum(1.0, 0.5 / np.maximum(reach, 1e-9))
    room = k * reach
    level = np.minimum(np.maximum(collective, room), 1 - room)
    command = np.empty_like(dy[16:20])
    np.add(level, k * (roll - pitch), out=command[0])
    np.add(level, k * (roll + pitch), out=command[1])
    np.subtract(2 * level, command[0], out=command[2])
    np.subtract(2 * level, command[1], out=command[3])
    # Yaw as far as all commands stay in 0..1: it raises rotors 1 and 3.
    most_13, least_13 = np.maximum(command[0], command[2]), np.minimum(command[0], command[2])
    most_24, least_24 = np.maximum(command[1], command[3]), np.minimum(command[1], command[3])
    yaw = np.minimum(np.maximum(yaw, -np.minimum(1 - most_24, least_13)), np.minimum(1 - most_13, least_24))
    command[0::2] += yaw
    command[1::2] -= yaw
    np.clip(command, 0.0, 1.0, out=command)
    command *= f.runs
    command -= y[16:20]
    np.divide(command, f.lag, out=dy[16:20])


FALL = SimpleNamespace(
    where=FALLING,
    rows=16,
    largest_step=fall_largest_step,
    next_timed=fall_next_timed,
    apply_timed=fall_apply_timed,
    step=fall_step,
)
POWERED = SimpleNamespace(
    where=RUNNING,
    rows=22,
    largest_step=powered_largest_step,
    next_timed=powered_next_timed,
    apply_timed=powered_apply_timed,
    step=powered_step,
)


def judge(f):
    """Outcome by the criteria of vertical speed, horizontal speed and tilt at touchdown."""
    y = f.y
    down, across = -y[5], np.sqrt(y[3] ** 2 + y[4] ** 2)
    tilt = np.arccos(np.clip(1 - 2 * (y[7] ** 2 + y[8] ** 2), -1, 1))
    soft = (down <= f.soft_vertical) & (across <= f.soft_horizontal) & (tilt <= f.soft_tilt)
    outcome = np.where(soft, SOFT, np.where(down <= 2 * f.soft_vertical, HARD, CRASH))
    outcome[f.where == DIVERGED] = NUMERICAL
    outcome[f.where == IN_THE_AIR] = CRASH
    landed = f.where == LANDED
    return {
        "outcome": outcome,
        "speed": np.where(landed, np.sqrt(down**2 + across**2), np.nan),
        "time": f.t,
    }
