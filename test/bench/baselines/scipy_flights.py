"""One flight after the other with SciPy's solve_ivp (RK45, error control), the equations of sim/MODEL.md in plain floats.

The wind is linear between the nodes of the flight's clock, so each call of solve_ivp goes from node to node (0.1 s), or to
a timed event between them; touchdown, arrest and the margins of upright and guard are events of solve_ivp. SI units.

Going from node to node also gives the state at the node, which the next gust needs. The other way, one call over many nodes
with steps limited to their distance, was tried on winds known beforehand and nodes 50 ms apart: a tenth slower at 1e-6 (steps
are refused at the kinks of the wind), a third faster at 1e-3. A first step of the whole way saves the search for one and is
refused where it is too long.
"""

from math import acos, copysign, exp, hypot, inf, nan, pi, sqrt

import numpy as np
from craft import CELL, CHARGE, G, NODE, READING, begin_state, craft_of, gust_scales, outages_of
from scipy.integrate import solve_ivp

SOFT, HARD, CRASH, NUMERICAL = range(4)
LIVE, HELD, ITSELF = range(3)  # who flies: the pilot, the last command, the craft by itself

# The voltage settles to this share of itself: induced speed and power hang on each other.
VOLTAGE_TOLERANCE = 1e-7


def fly(x, noise, height, rtol):
    """Outcome, touchdown speed (m/s) and time (s) of every flight; x: the inputs as columns, by path."""
    c = craft_of(x, height)
    starts = begin_state(x)
    outages = outages_of(c, x["noise.outages"])
    flown = []
    for i in range(len(c.mass)):
        constants = {name: value[..., i].tolist() for name, value in vars(c).items()}
        series = Series(x, noise, i, *(one[:, i].tolist() for one in outages))
        flown.append(Flight(constants, series, starts[:, i], rtol).fly())
    return {name: np.array(column) for name, column in zip(("outcome", "speed", "time"), zip(*flown))}


class Series:
    """The noise of one flight."""

    def __init__(self, x, noise, i, outage_begins, outage_ends):
        self.nodes = noise.nodes[x["noise.first_node"][i] : x["noise.last_node"][i] + 1].tolist()
        self.readings = noise.readings[x["noise.first_reading"][i] : x["noise.last_reading"][i] + 1].tolist()
        self.outages = list(zip(outage_begins, outage_ends))

    def outage_at(self, t):
        """The outage on at t, or the next one."""
        return next((begin, end) for begin, end in self.outages if end > t)


class Flight:
    """One flight: its constants (craft.py), its state, and what events change."""

    def __init__(self, constants, series, start, rtol):
        self.__dict__.update(constants)
        self.series, self.rtol = series, rtol
        self.t, self.y, self.node = 0.0, start, -1
        *self.gust, self.hand_to = series.nodes[0]
        *self.lengths, ratio = map(float, gust_scales(start[2]))
        self.next_wind = self.wind_at(start[2], self.gust, ratio)
        self.reading = inf
        self.fell = (0.0, 0.0)  # height at the node before, and its rate times the step
        self.ready = self.guard_since = self.upright_since = self.below_since = self.stick_until = inf
        self.watching = self.running = self.stopped = self.arrested = self.approaching = self.upright = False
        self.spread = False
        self.stick, self.tilt = LIVE, (0.0, 0.0)
        self.voltage, self.segment = 0.0, 1

    # ---- The course of the flight.

    def fly(self):
        """(outcome, touchdown speed, time)"""
        while self.t < self.time_limit:
            if self.t >= NODE * (self.node + 1):
                self.next_air()
                if not (np.abs(self.y[3:6]).max() < 1e3 and np.abs(self.y[10:13]).max() < 2e3):
                    return NUMERICAL, nan, self.t
            self.apply_timed()
            if self.go_on(min(NODE * (self.node + 1), self.next_timed())):
                return self.judge()
        return CRASH, nan, self.t

    def go_on(self, until):
        """Integrates to `until` or an event; true at the ground."""
        y = self.y
        y[6:10] /= sqrt(y[6:10] @ y[6:10])
        rates, margin = self.fall_rates, self.guard_margin if self.watching else None
        if self.running:
            rates, margin = self.powered_rates, None if self.upright else self.upright_margin
        events = [above_ground]
        if margin:
            events.append(margin)
        if self.running and not self.arrested:
            events.append(self.excess_speed)
        voltage = self.voltage
        solved = solve_ivp(
            rates,
            (self.t, until),
            y,
            "RK45",
            events=events,
            rtol=self.rtol,
            atol=self.rtol,
            first_step=until - self.t,
        )
        then = float(solved.t[-1]) if solved.status == 1 else until
        self.y = solved.y[:, -1].copy()
        if margin:
            holds = margin(then, self.y) >= 0
            began = solved.t_events[1][-1:].tolist()
            since = self.upright_since if self.running else self.guard_since
            since = (began[0] if began else min(since, self.t)) if holds else inf
            if self.running:
                self.upright_since = since
            else:
                self.guard_since = since
        if self.running:
            # The voltage of the last evaluation, so at the end; linear between.
            below, before = self.cut_off - self.voltage, self.cut_off - voltage
            began = self.t if before >= 0 else self.t + (then - self.t) * -before / (below - before) if below >= 0 else inf
            self.below_since = min(self.below_since, began) if below >= 0 else inf
        self.t = then
        if solved.status == 1:
            if solved.t_events[0].size:
                return True
            self.arrest()
        return False

    def judge(self):
        x, y, z = self.y[3:6].tolist()
        down, across = -z, hypot(x, y)
        soft = down <= self.soft_vertical and across <= self.soft_horizontal and acos(self.up_cosine(self.y)) <= self.soft_tilt
        return SOFT if soft else HARD if down <= 2 * self.soft_vertical else CRASH, hypot(down, across), self.t

    def next_timed(self):
        if self.running:
            held = inf if self.upright else self.upright_since + self.upright_hold
            return min(self.stick_until, self.below_since + self.cut_off_delay, held)
        arms = inf if self.spread else self.opened
        return min(arms, self.ready, self.guard_since + self.guard_hold)

    def apply_timed(self):
        if self.opened <= self.t and not self.spread:
            self.spread_arms()
        if not self.running:
            if self.ready <= self.t:
                self.ready = inf
                if self.guarded:
                    self.watching = True
                    self.guard_since = self.t if self.guard_margin(self.t, self.y) >= 0 else inf
                else:
                    self.start_motors()
            if self.watching and self.guard_since + self.guard_hold <= self.t:
                self.start_motors()
        if not self.running:
            return
        if self.stick_until <= self.t:
            self.move_stick()
        if self.upright_since + self.upright_hold <= self.t:
            self.upright = True
        if self.below_since + self.cut_off_delay <= self.t:
            self.stop_motors()

    def spread_arms(self):
        """The arms are open, at once: the angular momentum stays."""
        self.spread = True
        self.y[10:12] *= self.transverse / self.spread_transverse
        self.y[12] *= self.axial / self.spread_axial

    def start_motors(self):
        """The motors start from rest at the voltage without load."""
        self.running, self.watching, self.guard_since = True, False, inf
        self.running_since = self.t
        charge = self.standby * self.t
        self.y = np.concatenate([self.y[:16], [0.0, 0.0, 0.0, 0.0, charge, 0.0]])
        self.voltage = self.open_circuit(charge)
        self.stick_until = self.t
        self.upright_since = self.t if self.upright_margin(self.t, self.y) >= 0 else inf
        if self.y[5] >= -self.approach_speed:
            self.arrest()

    def stop_motors(self):
        self.running, self.stopped = False, True
        self.y = self.y[:16].copy()

    def move_stick(self):
        """Who flies now, as the radio allows, and until when."""
        begin, end = self.series.outage_at(self.t)
        fail_safe = max(begin, self.running_since) + self.fail_safe_time
        if begin > self.t:
            self.stick, self.stick_until = LIVE, begin
        elif fail_safe > self.t:
            self.stick, self.stick_until = HELD, min(fail_safe, end)
        elif self.fail_safe_stops:
            self.stop_motors()
            return
        else:
            self.stick, self.stick_until = ITSELF, end
        if self.arrested and not self.approaching:
            self.begin_approach()

    def arrest(self):
        self.arrested = True
        self.begin_approach()

    def begin_approach(self):
        """The hand takes over where full throttle stood, unless the link is down."""
        if self.stick == HELD:
            return
        self.approaching = True
        full = self.full_thrust(self.believed, self.density_at(self.y[2]), self.voltage)
        self.y[21] = min(max(4 * full / self.mass - G, -5.0), 5.0)

    # ---- Events of solve_ivp.

    def excess_speed(self, _, y):
        return -y[5] - self.approach_speed

    excess_speed.terminal, excess_speed.direction = True, -1

    def upright_margin(self, _, y):
        rate = sqrt(y[10] * y[10] + y[11] * y[11] + y[12] * y[12])
        tilt = (self.up_cosine(y) - self.upright_cosine) / (1 - self.upright_cosine)
        return min(tilt, 1 - rate / self.upright_rate)

    upright_margin.direction = 1

    def guard_margin(self, _, y):
        """Over 0 while the stabiliser's own estimate of "up" and its gyro are within the guard's limits."""
        tilt = (y[15] / hypot(y[13], y[14], y[15]) - self.guard_cosine) / (1 - self.guard_cosine)
        return min(tilt, 1 - hypot(*self.gyro_reading(*y[10:13])) / self.guard_rate)

    guard_margin.direction = 1

    @staticmethod
    def up_cosine(y):
        return min(max(1 - 2 * (y[7] * y[7] + y[8] * y[8]), -1.0), 1.0)

    # ---- Wind, gusts and the call-out, at the nodes.

    def wind_at(self, z, gust, ratio):
        along = self.wind_speed * (max(z, 0.1) / 10.0) ** self.wind_exponent + self.gust_sigma * ratio * gust[0]
        across = self.gust_sigma * ratio * gust[1]
        east, north = self.towards
        return [along * east - across * north, along * north + across * east, self.gust_sigma * gust[2]]

    def next_air(self):
        """Works out the wind one node on; a craft that falls listens to the call-out."""
        self.node += 1
        self.wind = wind = self.next_wind
        _, _, z, vx, vy, vz = self.y[:6].tolist()
        airspeed = hypot(vx - wind[0], vy - wind[1], vz - wind[2])
        *fresh, hand = self.series.nodes[min(self.node + 1, len(self.series.nodes) - 1)]
        gust = []
        for i, length in enumerate((self.lengths[0], self.lengths[0], self.lengths[1])):
            kept = exp(-max(airspeed, 1.0) * NODE / length)
            gust.append(kept * self.gust[i] + sqrt(1 - kept * kept) * fresh[i])
        self.gust = gust
        *self.lengths, ratio = map(float, gust_scales(z + NODE * vz))
        self.next_wind = self.wind_at(z + NODE * vz, gust, ratio)
        self.wind_step = [b - a for a, b in zip(wind, self.next_wind)]
        self.hand_from, self.hand_to = self.hand_to, hand
        if not (self.running or self.watching or self.stopped) and self.ready == inf:
            self.listen(z, NODE * vz, airspeed)

    def listen(self, z, rise, airspeed):
        """Barometric reading at this node; the first one at or under the height gives the order."""
        x = NODE * self.node / READING
        k = min(int(x), len(self.series.readings) - 2)
        a, b = self.series.readings[k : k + 2]
        before = self.reading
        now = z * self.reading_slope + self.reading_bias + self.flow_error * airspeed**2 / (2 * G)
        now += self.reading_noise * (a + (x - k) * (b - a))
        self.reading = now
        (z_before, rise_before), self.fell = self.fell, (z, rise)
        if not now <= self.height < before:
            return
        # Between nodes the height is a cubic: it bulges above its chord, and the reading with it.
        early, late = rise_before - z + z_before, rise - z + z_before
        share = (before - self.height) / (before - now)
        for _ in range(2):
            bulge = share * (1 - share) * ((1 - share) * early - share * late)
            share = min(max((before - self.height + self.reading_slope * bulge) / (before - now), 0.0), 1.0)
        cue = NODE * (self.node - 1 + share) if self.node else 0.0
        said = cue + self.said_after
        begin, end = self.series.outage_at(said)
        order = (end if begin <= said else said) + self.link_delay
        if self.can_start:
            self.ready = max(order, self.opened, self.t)

    # ---- Equations of motion. y: r, v, q, w, p and, powered, c, Q, b.

    def fall_rates(self, t, y):
        y = y.tolist()
        R, u, w, rho = self.meet_stream(t, y)
        Fx, Fy, Fz, Mx, My = self.can_load(rho, u, w, 1 - self.openness if self.spread else 1.0)
        Mz, axial, transverse = 0.0, self.axial, self.transverse
        if self.spread:
            ax, ay, az, mx, my, Mz = self.arms_load(rho, u, w, self.stopped_drag, None)
            Fx, Fy, Fz, Mx, My = Fx + ax, Fy + ay, Fz + az, Mx + mx, My + my
            axial, transverse = self.spread_axial, self.spread_transverse
        gyro = self.gyro_reading(*w)
        return self.move(y, R, (Fx, Fy, Fz), (Mx, My, Mz), axial, transverse, gyro)

    def powered_rates(self, t, y):
        """The motors run only with open arms."""
        y = y.tolist()
        R, u, w, rho = self.meet_stream(t, y)
        Fx, Fy, Fz, Mx, My = self.can_load(rho, u, w, 1 - self.openness)
        climb = self.climb_speeds(u, w)
        V, current, thrust, wash = self.rotors(rho, y[16:20], climb, y[20])
        ax, ay, az, mx, my, Mz = self.arms_load(rho, u, w, self.running_drag, wash)
        t1, t2, t3, t4 = thrust
        F = (Fx + ax, Fy + ay, Fz + az + t1 + t2 + t3 + t4)
        M = (
            Mx + mx + self.arm_x * (t1 + t2 - t3 - t4),
            My + my - self.arm_x * (t1 - t2 - t3 + t4),
            Mz + self.torque_arm * (t1 - t2 + t3 - t4),
        )
        gyro = self.gyro_reading(*w)
        dy = self.move(y, R, F, M, self.spread_axial, self.spread_transverse, gyro)

        full = max(self.full_thrust(self.believed, rho, V), 1e-6)
        collective, hand, wanted = 1.0, 0.0, y[13:16]
        if self.approaching:
            collective = self.mass * (G + y[21]) / (4 * full * max(y[15], 0.7))
            hand = self.hand_rate(t, y)
            wanted = self.tilted_home(y, R)
        command = self.commands(wanted, gyro, collective, full)
        dy += [(run * one - c) / self.lag for run, one, c in zip(self.runs, command, y[16:20])]
        dy += [current, hand]
        return dy

    def density_at(self, z):
        d = self.density
        return d[0] + z * (d[1] + z * (d[2] + z * d[3]))

    def meet_stream(self, t, y):
        """Matrix from body to inertial axes, velocity through the air and turning rate (body axes), density."""
        a, b, c, d = y[6:10]
        b2, c2, d2 = 2 * b, 2 * c, 2 * d
        ab, ac, ad = a * b2, a * c2, a * d2
        bb, bc, bd = b * b2, b * c2, b * d2
        cc, cd, dd = c * c2, c * d2, d * d2
        r11, r12, r13 = 1 - cc - dd, bc - ad, bd + ac
        r21, r22, r23 = bc + ad, 1 - bb - dd, cd - ab
        r31, r32, r33 = bd - ac, cd + ab, 1 - bb - cc
        share = t / NODE - self.node
        wind, step = self.wind, self.wind_step
        x = y[3] - wind[0] - share * step[0]
        n = y[4] - wind[1] - share * step[1]
        z = y[5] - wind[2] - share * step[2]
        u = (r11 * x + r21 * n + r31 * z, r12 * x + r22 * n + r32 * z, r13 * x + r23 * n + r33 * z)
        return (r11, r12, r13, r21, r22, r23, r31, r32, r33), u, y[10:13], self.density_at(y[2])

    def can_load(self, rho, u, w, folded):
        """Force and moment (x, y) of the air on the can: strips, end, slender body, driven tumble while folded."""
        ux, uy, uz = u
        wx, wy, _ = w
        Fx = Fy = Mx = My = 0.0
        for s, drag in zip(self.strip, self.strip_drag):
            vx, vy = ux + wy * s, uy - wx * s
            k = drag * sqrt(vx * vx + vy * vy)
            Fx += k * vx
            Fy += k * vy
            Mx -= s * k * vy
            My += s * k * vx
        across2 = ux * ux + uy * uy
        along = abs(uz)
        speed = sqrt(across2 + uz * uz)
        if speed > 0:
            k = self.slender * along * sqrt(0.5 + 0.5 * along / speed)
            s = self.middle + copysign(self.half, uz)
            Fx += k * ux
            Fy += k * uy
            Mx -= s * k * uy
            My += s * k * ux
        if folded > 0:
            drive = folded * self.tumble * sqrt(across2) / (sqrt(wx * wx + wy * wy) + 1e-3)
            Mx += drive * wx
            My += drive * wy
        return rho * Fx, rho * Fy, rho * self.end_drag * along * uz, rho * Mx, rho * My

    def climb_speeds(self, u, w):
        """Axial speed through the air of the four rotor centres (x, x), (-x, x), (-x, -x), (x, -x)."""
        uz, wx, wy = u[2], self.arm_x * w[0], self.arm_x * w[1]
        return uz + wx - wy, uz + wx + wy, uz - wx + wy, uz - wx - wy

    def arms_load(self, rho, u, w, drag, wash):
        """Drag at the four rotor centres; a share of it with the wash of the rotors (m/s) added to the stream."""
        a, h = self.arm_x, self.arm_height
        wx, wy, wz = w
        ux, uy, wz = u[0] + wy * h, u[1] - wx * h, a * wz
        left, right, front, back = ux - wz, ux + wz, uy + wz, uy - wz
        l2, r2, f2, b2 = left * left, right * right, front * front, back * back
        loads = []
        for d, across2, z, down in zip(drag, (l2 + f2, l2 + b2, r2 + b2, r2 + f2), self.climb_speeds(u, w), wash or NO_WASH):
            k = rho * d * sqrt(across2 + z * z)
            force = k * z
            if wash:
                washed = z + down
                q = self.wash * rho * d * sqrt(across2 + washed * washed)
                k = (1 - self.wash) * k + q
                force = (1 - self.wash) * force + q * washed
            loads.append((k, force))
        (k1, f1), (k2, f2), (k3, f3), (k4, f4) = loads
        fx, fy = (k1 + k2) * left + (k3 + k4) * right, (k1 + k4) * front + (k2 + k3) * back
        mx = a * (f1 + f2 - f3 - f4) - h * fy
        my = h * fx - a * (f1 - f2 - f3 + f4)
        mz = a * ((k1 + k4) * front - (k2 + k3) * back - (k1 + k2) * left + (k3 + k4) * right)
        return fx, fy, f1 + f2 + f3 + f4, mx, my, mz

    def open_circuit(self, drawn):
        """Open-circuit voltage of the pack, V, with the charge drawn in C: linear in the table of a cell."""
        charge = self.charge - drawn / self.capacity
        k = self.segment
        while k > 1 and charge < CHARGES[k - 1]:
            k -= 1
        while k < len(CHARGES) - 1 and charge > CHARGES[k]:
            k += 1
        self.segment = k
        slope = (CELLS[k] - CELLS[k - 1]) / (CHARGES[k] - CHARGES[k - 1])
        return self.cells * max(CELLS[k - 1] + slope * (charge - CHARGES[k - 1]), 0.0)

    def voltage_root(self, voltage):
        """Root of the thrust ratio for a voltage, which scales the induced speed."""
        ratio = voltage / self.bench_voltage
        return ratio if self.voltage_exponent == 2 else ratio ** (0.5 * self.voltage_exponent)

    def full_thrust(self, constant, rho, voltage):
        """Static thrust of one rotor at full throttle, N; the constant is the true one or the believed one."""
        root = self.voltage_root(voltage)
        return constant * rho * root * root

    def rotors(self, rho, fractions, climb, drawn):
        """Voltage, current, the four thrusts and washes; the voltage by fixed point, as the power hangs on the induced speed."""
        e = max(self.open_circuit(drawn) - self.resistance * self.standby, 0.0)
        roots = [sqrt(c) if c > 1e-12 else 1e-6 for c in fractions]
        per_volt = 4 * self.power * rho * self.resistance * e
        V = self.voltage
        for _ in range(20):
            induced = self.induced * self.voltage_root(V)
            power = 0.0
            for c, root, v in zip(fractions, roots, climb):
                x = v / (root * induced)
                flow = x + induced_ratio(x)
                factor = 0.4 + 0.6 * flow if flow > 0 else 0.4
                if x < -1:
                    k = min(-x - 1, 1.0)
                    factor += (self.stalled - 0.4) * k * k * (3 - 2 * k)
                power += c * root * factor
            before, V = V, 2 * e / (1 + sqrt(1 + per_volt * power))
            if abs(V - before) <= VOLTAGE_TOLERANCE * before:
                break
        self.voltage = V
        full = self.full_thrust(self.thrust, rho, V)
        induced = self.induced * self.voltage_root(V)
        zero = self.zero_thrust * V
        thrusts, wash = [], []
        for c, root, v, run, own in zip(fractions, roots, climb, self.runs, self.own_thrust):
            hover = root * induced
            wash.append(induced_ratio(v / hover) * hover if c > 1e-6 else 0.0)
            if v >= 0:
                j = run * v / zero
                share = c - j * (0.5705 * root + 0.4295 * j)
            else:
                x = -v / hover
                share = c
                if 0.5 < x < 2:
                    k = (x - 0.5) / 0.75 if x < 1.25 else (2 - x) / 0.75
                    share = c * (1 - self.ring_depth * k * k * (3 - 2 * k))
            thrusts.append(full * own * share)
        return V, self.power * rho * power * V * V + self.standby, thrusts, wash

    def gyro_reading(self, wx, wy, wz):
        scale, most = self.gyro_scale, self.gyro_range
        bx, by, bz = self.gyro_bias
        return (
            min(max(scale * wx + bx, -most), most),
            min(max(scale * wy + by, -most), most),
            min(max(scale * wz + bz, -most), most),
        )

    def move(self, y, R, F, M, axial, transverse, gyro):
        """Rates of the first 16 states: Newton, Euler for a body symmetric about its axis, the estimate of "up".

        M is that about the point on the axis; about the centre of mass it is M - d x F.
        """
        dx, dy = self.centre_x, self.centre_y
        M = M[0] - dy * F[2], M[1] + dx * F[2], M[2] - dx * F[1] + dy * F[0]
        fx, fy, fz = F[0] / self.mass, F[1] / self.mass, F[2] / self.mass
        a, b, c, d = y[6:10]
        wx, wy, wz = y[10:13]
        px, py, pz = y[13:16]
        coupling = (axial - transverse) * wz
        size = sqrt(fx * fx + fy * fy + fz * fz)
        weight = min(max(3.0 - abs(size / G - 1) / self.gate_span, 0.0), 1.0) / self.reference_time
        towards = weight / size if weight > 0 else 0.0
        horizon = 1.0 if self.upright else 0.0
        decay = weight + horizon
        gx, gy, gz = gyro
        return [
            y[3],
            y[4],
            y[5],
            R[0] * fx + R[1] * fy + R[2] * fz,
            R[3] * fx + R[4] * fy + R[5] * fz,
            R[6] * fx + R[7] * fy + R[8] * fz - G,
            -0.5 * (b * wx + c * wy + d * wz),
            0.5 * (a * wx + c * wz - d * wy),
            0.5 * (a * wy + d * wx - b * wz),
            0.5 * (a * wz + b * wy - c * wx),
            (M[0] - coupling * wy) / transverse,
            (M[1] + coupling * wx) / transverse,
            M[2] / axial,
            gz * py - gy * pz + towards * fx + horizon * R[6] - decay * px,
            gx * pz - gz * px + towards * fy + horizon * R[7] - decay * py,
            gy * px - gx * py + towards * fz + horizon * R[8] - decay * pz,
        ]

    def hand_rate(self, t, y):
        """Rate of the acceleration that the hand asks for, behind its lag."""
        if self.stick == HELD:
            return 0.0
        near, unsteady = 1.0, 0.0
        if self.stick == LIVE:
            half = 0.5 * self.flare
            near = min(max((y[2] - half) / half, 0.0), 1.0) if half > 0 else 1.0
            share = t / NODE - self.node
            unsteady = self.hand_noise * (self.hand_from + share * (self.hand_to - self.hand_from))
        wanted = self.touchdown_speed + near * (self.approach_speed - self.touchdown_speed)
        lift = min(max(self.descent_gain * (-y[5] - wanted) + unsteady, -5.0), 5.0)
        return (lift - y[21]) / self.response

    def tilted_home(self, y, R):
        """Wanted thrust direction: up as estimated, and the pilot's tilt towards home; the tilt is kept for an outage."""
        p = y[13:16]
        if self.stick == ITSELF:
            return p
        if self.stick == LIVE:
            east, north = -0.3 * y[0], -0.3 * y[1]
            share = min(1.0, self.ground_speed_limit / max(hypot(east, north), 1e-9))
            blend = min(max((y[2] - self.flare) / self.flare, 0.0), 1.0) if self.flare > 0 else 1.0
            error_east, error_north = self.ground_speed_error
            te = (error_east + blend * (share * east - error_east) - y[3]) / G
            tn = (error_north + blend * (share * north - error_north) - y[4]) / G
            yaw = min(max(9.0 - abs(y[12]) * 18 / pi, 0.0), 1.0)  # 1 to 80 deg/s, 0 from 90 deg/s
            k = yaw * min(1.0, self.largest_tangent / max(hypot(te, tn), 1e-9))
            self.tilt = k * te, k * tn
        te, tn = self.tilt
        return p[0] + R[0] * te + R[3] * tn, p[1] + R[1] * te + R[4] * tn, p[2] + R[2] * te + R[5] * tn

    def commands(self, wanted, gyro, collective, full):
        """Attitude loop, rate loop and mixer, which go by the inertia with open arms: the four thrust fractions."""
        tx, ty, tz = wanted
        across = sqrt(tx * tx + ty * ty)
        scale = 2 * self.attitude_gain / max(sqrt(tx * tx + ty * ty + tz * tz) + tz, 1e-12)
        if across * scale > self.largest_rate:
            scale = self.largest_rate / across
        gain = self.rate_gain / (4 * full)
        roll = gain * self.open_transverse / self.arm_x * (-ty * scale - gyro[0])
        pitch = gain * self.open_transverse / self.arm_x * (tx * scale - gyro[1])
        yaw = -gain * self.open_axial * gyro[2] / self.torque_arm if self.torque_arm > 0 else 0.0
        reach = abs(roll) + abs(pitch)
        k = 0.5 / reach if reach > 0.5 else 1.0
        room = k * reach
        level = min(max(collective, room), 1 - room)
        difference, both = k * (roll - pitch), k * (roll + pitch)
        c1, c2, c3, c4 = level + difference, level + both, level - difference, level - both
        # Yaw as far as all commands stay in 0..1: it raises rotors 1 and 3.
        yaw = min(max(yaw, -min(1 - max(c2, c4), c1, c3)), min(1 - max(c1, c3), c2, c4))
        return c1 + yaw, c2 - yaw, c3 + yaw, c4 - yaw


def induced_ratio(x):
    """Induced speed over v_h at the climb ratio x: momentum theory, between -2 and 0 Leishman's quartic bent to end at 1."""
    if x >= 0:
        return -0.5 * x + sqrt(0.25 * x * x + 1)
    if x <= -2:
        return -0.5 * x - sqrt(0.25 * x * x - 1)
    k = max(0.0, (-1.8 - x) / 0.2)
    return 1 + x * (-1.125 + x * (-1.372 + x * (-1.718 + x * -0.655))) - 0.026 * k * k * (3 - 2 * k)


def above_ground(_, y):
    return y[2]


above_ground.terminal, above_ground.direction = True, -1

NO_WASH = (0.0, 0.0, 0.0, 0.0)
CHARGES, CELLS = CHARGE.tolist(), CELL.tolist()
