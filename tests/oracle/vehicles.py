# SPDX-License-Identifier: MIT
"""Random vehicles for the oracle: valid, plausible, and of every kind that a file can describe.

`vehicle(number, seed)` gives the text of a vehicle file and what it says in SI. Which lines there
are, and their ranges, is the catalogue's (libbrake/vehicle/sections.c); exact factors of units are
those of NIST SP 811.
"""
import math
import random

POUND = 0.45359237
INCH = 0.0254
FOOT = 0.3048
G = 9.80665
LBF = POUND * G
PSI = LBF / INCH**2

UNITS = {
    "mass": {"kg": 1.0, "lb": POUND},
    "length": {"mm": 1e-3, "m": 1.0, "cm": 1e-2, "in": INCH, "ft": FOOT},
    "force": {"N": 1.0, "lbf": LBF},
    "pressure": {"bar": 1e5, "kPa": 1e3, "psi": PSI, "MPa": 1e6},
    "volume": {"cm3": 1e-6, "mm3": 1e-9},
    "inertia": {"kg*m2": 1.0},
    "torque": {"N*m": 1.0, "lbf*ft": LBF * FOOT},
    "speed": {"km/h": 1 / 3.6, "mph": 0.44704, "m/s": 1.0},
    "time": {"s": 1.0},
    "ratio": {"": 1.0, "%": 0.01},
    "plain": {"": 1.0},
    "angle": {"deg": math.pi / 180},
    "acceleration": {"m/s2": 1.0, "ft/s2": FOOT},
    "stiffness": {"N/mm": 1e3},
    "pressure per mass": {"bar/kg": 1e5},
}
ORIGINS = ("measured", "catalogue", "estimated")
# Sizes of tyres, and their diameters in mm to 1 mm or so.
MARKED_DIAMETERS = {
    "LT305/70R17 121/118Q": 859,
    "265/70R17 115S": 803,
    "P265/70R17 113S": 803,
    "205/55R16 91V": 632,
    "245/75R16": 774,
    "LT285/70R17 121/118R": 831,
    "215/65R16C 109/107T": 686,
    "235/85R16 120/116N": 806,
    "175/70R13 82T": 575,
    "35x12.50R17LT": 889,
    "33x12.50R15LT 108Q": 838,
    "31x10.50R15LT 109S": 787,
    "37x12.50R17LT 124Q": 940,
    "35x12.50-15": 889,
    "7.50R16LT 116N": 802,
    "6.50-16": 749,
    "185R14C 102/100Q": 659,
    "205/55 ZR16 91W": 632,
    "P235/75R15 105S": 734,
}
MARKINGS = tuple(MARKED_DIAMETERS)
SPLITS = ("II", "X", "HI", "LL", "HH", "one")


class Writer:
    """Lines of a vehicle file and what they say."""

    def __init__(self, dice):
        self.dice = dice
        self.raw = {}
        self.sections = {}

    def add(self, path, words, value):
        section, _, name = path.rpartition(".")
        self.sections.setdefault(section, []).append(f"{name} = {words}")
        self.raw[path] = value

    def written(self, value, kind, unit=None, digits=None):
        """Number and unit as text, and the SI value of that text."""
        units = UNITS[kind]
        unit = unit if unit is not None else self.dice.choice(list(units))
        number = f"{value / units[unit]:.{digits or self.dice.randint(4, 7)}g}"
        return f"{number} {unit}".strip(), float(number) * units[unit]

    def put(self, path, value, kind):
        words, si = self.written(value, kind)
        if self.dice.random() < 0.3:
            spread = abs(value) * self.dice.uniform(0.001, 0.05) + 1e-6
            words += f" +- {self.written(spread, kind, digits=2)[0]}"
        if self.dice.random() < 0.4:
            words += f", {self.dice.choice(ORIGINS)}"
        self.add(path, words, si)

    def between(self, path, low, high, kind):
        self.put(path, self.dice.uniform(low, high), kind)

    def maybe(self, chance, path, low, high, kind):
        if path not in self.raw and self.dice.random() < chance:
            self.between(path, low, high, kind)

    def word(self, path, *words):
        word = self.dice.choice(words)
        self.add(path, word, word)
        return word

    def edge(self, chance, path, kind, *values):
        """Now and then one of the values at the edge of what a line accepts."""
        if path not in self.raw and self.dice.random() < chance:
            self.put(path, self.dice.choice(values), kind)

    def twice(self, path, value, kind):
        """Now and then a stated value beside the raw reading of it, as far as they may differ."""
        if self.dice.random() < 0.1:
            self.put(path, value * self.dice.uniform(0.99, 1.01), kind)

    def maybe_word(self, chance, path, *words):
        if self.dice.random() < chance:
            self.word(path, *words)

    def pistons(self, path, groups):
        words, pairs = [], []
        for count, diameter in groups:
            text, si = self.written(diameter, "length", self.dice.choice(("mm", "in", "mm")))
            words.append(f"{count} x {text}")
            pairs.append((count, si))
        self.add(path, " + ".join(words), pairs)

    def curve(self, path, pairs, first, second):
        units = [self.dice.choice(list(UNITS[kind])) for kind in (first, second)]
        words, values = [], []
        for x, y in pairs:
            texts, numbers = zip(
                self.written(x, first, units[0], 5), self.written(y, second, units[1], 5)
            )
            words.append(f"({', '.join(texts)})")
            values.append(numbers)
        self.add(path, " ".join(words) + ", measured", values)

    def text(self):
        blocks = []
        for section, lines in self.sections.items():
            blocks.append("\n".join([f"[{section}]", *lines, ""]))
        return "\n".join(blocks)


def vehicle(number, seed=1):
    """Text of the vehicle of a number, and its lines in SI."""
    dice = random.Random(f"{seed}/{number}")
    out = Writer(dice)
    state = {}
    write_body(out, state)
    write_axles(out, state)
    write_valve(out, state)
    write_pedal(out, state)
    write_circuits(out, state)
    write_parking(out, state)
    write_road(out, state)
    write_loads(out, state)
    write_engine(out)
    return out.text(), out.raw


def write_body(out, state):
    dice = out.dice
    mass, wheelbase = dice.uniform(900, 3300), dice.uniform(2.1, 3.6)
    share = dice.uniform(0.44, 0.62)
    # Not so short and tall that it goes over its front wheels before it slides.
    height = dice.uniform(0.5, min(0.95, wheelbase * (1 - share) / 1.35))
    state.update(mass=mass, wheelbase=wheelbase, share=share, height=height)
    out.add("vehicle.name", f"Case {dice.randint(1, 10**6)}", None)
    out.maybe_word(0.7, "vehicle.category", "M1", "N1")
    out.maybe_word(0.6, "vehicle.frame", "car", "truck")
    out.maybe_word(0.5, "vehicle.country", "US", "NL", "GB", "AU")
    out.maybe_word(0.6, "vehicle.use", "private", "commercial")
    out.maybe_word(0.4, "vehicle.secondary", "circuits", "separate")
    out.maybe_word(0.6, "vehicle.tyres", "road", "all_terrain", "mud")
    out.maybe(0.3, "vehicle.tyre_grip", 0.7, 1.2, "ratio")
    if dice.random() < 0.6:
        year = dice.choice((1965, 1975, 1999, 2005, 2011, 2012, 2019))
        out.add("vehicle.first_registered", str(year), float(year))
    out.put("vehicle.wheelbase", wheelbase, "length")
    write_masses(out, mass, share)
    write_height(out, mass, wheelbase, share, height)
    out.maybe(0.4, "vehicle.unsprung_mass", 0.1 * mass, 0.25 * mass, "mass")
    state["rated"] = mass * dice.uniform(1.05, 1.5)
    # The load that is left out goes up to this mass.
    state["load"] = dice.choice(("rated", "rated", "stated", "axles"))
    if state["load"] == "rated" or dice.random() < 0.6:
        out.put("vehicle.rated_mass", state["rated"], "mass")
    out.maybe(0.8, "vehicle.top_speed", 25, 60, "speed")
    out.maybe(0.3, "vehicle.rolling_resistance", 0, 0.03, "plain")
    out.maybe_word(0.6, "vehicle.antilock", "none", "fitted")
    out.maybe(0.4, "vehicle.antilock_efficiency", 0.6, 1.0, "ratio")
    out.maybe(0.4, "lift.suspension", -0.05, 0.12, "length")
    out.maybe(0.4, "lift.wheel_rise", -0.03, 0.06, "length")
    for index in range(dice.choice((0, 0, 1, 2, 3))):
        part = f"part.{('winch', 'rack', 'seat')[index]}"
        out.between(f"{part}.mass", -60, 120, "mass")
        out.between(f"{part}.behind_front_axle", -0.8, 4.0, "length")
        out.between(f"{part}.height", 0.3, 1.9, "length")


def write_masses(out, mass, share):
    way = out.dice.choice(("stated", "corners", "axles"))
    if way == "stated":
        out.put("vehicle.mass", mass, "mass")
        out.put("vehicle.front_share", share, "ratio")
        return
    out.twice("vehicle.mass", mass, "mass")
    out.twice("vehicle.front_share", share, "ratio")
    front, rear = mass * share, mass * (1 - share)
    if way == "axles":
        out.put("scales.front_axle", front, "mass")
        out.put("scales.rear_axle", rear, "mass")
        return
    left = out.dice.uniform(0.45, 0.55)
    for axle, load in (("front", front), ("rear", rear)):
        out.put(f"scales.{axle}_left", load * left, "mass")
        out.put(f"scales.{axle}_right", load * (1 - left), "mass")


def write_height(out, mass, wheelbase, share, height):
    way = out.dice.choice(("stated", "roof", "tilt"))
    if way == "stated":
        out.put("vehicle.cg_height", height, "length")
    elif way == "roof":
        out.put("vehicle.roof_height", height / 0.385, "length")
    else:
        hub, rise = out.dice.uniform(0.28, 0.42), out.dice.uniform(0.3, 0.8)
        level = mass * share
        tangent = math.tan(math.asin(rise / wheelbase))
        out.put("tilt.rise", rise, "length")
        out.put("tilt.ground_axle_level", level, "mass")
        tilted = level + mass * tangent * (height - hub) / wheelbase
        words, si = out.written(tilted, "mass", digits=7)
        out.add("tilt.ground_axle_tilted", words, si)
        out.put("tilt.hub_height", hub, "length")


def write_tyre(out, axle):
    dice, tyre = out.dice, f"{axle}.tyre"
    ways = ("marking", "marking", "marking and rollout", "radius", "diameter", "rollout")
    way = dice.choice(ways)
    radius = dice.uniform(0.28, 0.45)
    if way.startswith("marking"):
        marking = dice.choice(MARKINGS)
        out.add(f"{tyre}.marking", marking, marking)
        # Tyres of one size differ by 3 to 5 %.
        radius = MARKED_DIAMETERS[marking] / 1000 * 0.4854 * dice.uniform(0.95, 1.03)
    if way.endswith("rollout"):
        out.put(f"{tyre}.rollout", radius * 2 * math.pi, "length")
        out.twice(f"{tyre}.rolling_radius", radius, "length")
    if way == "radius":
        out.put(f"{tyre}.rolling_radius", radius, "length")
    if way == "diameter":
        out.put(f"{tyre}.overall_diameter", radius / 0.4854, "length")
    if not way.startswith("marking"):
        out.maybe(0.5, f"{tyre}.load_capacity", 500, 1500, "mass")
    way = dice.choice(("stated", "mass", "swing"))
    if way == "stated":
        out.between(f"{tyre}.wheel_inertia", 0.6, 4.0, "inertia")
        return
    out.between(f"{tyre}.wheel_mass", 16, 48, "mass")
    if way == "mass":
        out.maybe(0.5, f"{tyre}.inertia_fraction", 0.5, 0.7, "ratio")
        return
    out.between(f"{tyre}.swing_radius", 0.15, 0.25, "length")
    out.between(f"{tyre}.swing_length", 1.5, 2.5, "length")
    out.between(f"{tyre}.swing_period", 2.5, 4.5, "time")


def write_axles(out, state):
    dice = out.dice
    same = dice.random() < 0.5
    for axle in ("front", "rear"):
        if axle == "front" or not same:
            write_tyre(out, axle)
        disc = dice.random() < (0.85 if axle == "front" else 0.5)
        kind = "disc" if disc else "drum"
        out.add(f"{axle}.axle.brake", kind, kind)
        if axle == "rear" and dice.random() < 0.2:
            out.add("rear.axle.wheels", "dual", "dual")
        out.maybe(0.7, f"{axle}.axle.rated_mass", 700, 2200, "mass")
        if out.dice.random() < 0.5:
            out.between(f"{axle}.axle.side_difference", 0.0, 0.4, "ratio")
        elif out.dice.random() < 0.5:
            force = out.dice.choice((300, 3000))
            out.between(f"tester.{axle}_left", 0.5 * force, force, "force")
            out.between(f"tester.{axle}_right", 0.5 * force, force, "force")
        out.maybe(0.6, f"{axle}.axle.scrub_radius", -0.05, 0.12, "length")
        out.maybe(0.6, f"{axle}.axle.track", 1.2, 1.8, "length")
        state[f"{axle} radius"] = (write_disc if disc else write_drum)(out, axle)


def write_disc(out, axle):
    dice, disc, pads = out.dice, f"{axle}.disc", f"{axle}.disc.pads"
    out.word(f"{disc}.mounting", "floating", "fixed")
    size = dice.uniform(0.046, 0.07) * (1.0 if axle == "front" else 0.75)
    groups = dice.choice((1, 1, 2, 3))
    out.pistons(
        f"{disc}.pistons",
        [
            (1 if groups > 1 else dice.choice((1, 2)), size * dice.uniform(0.9, 1) / groups**0.5)
            for _ in range(groups)
        ],
    )
    radius = dice.uniform(0.1, 0.15)
    write_pad(out, axle, radius)
    out.maybe(0.5, f"{disc}.efficiency", 0.85, 1.0, "ratio")
    out.maybe(0.5, f"{disc}.threshold", 0.0, 2e5, "pressure")
    out.maybe(0.5, f"{disc}.compliance", 5e-7, 3e-6, "volume")
    out.maybe(0.6, f"{disc}.rotor_mass", 3, 10, "mass")
    out.maybe(0.3, f"{disc}.hat_mass", 0.5, 3, "mass")
    out.edge(0.03, f"{pads}.mu", "ratio", 0.051, 0.89)
    out.maybe(0.7, f"{pads}.mu", 0.25, 0.5, "ratio")
    out.maybe(0.5, f"{pads}.gap", 0.0, 0.0003, "length")
    return radius


def write_pad(out, axle, radius):
    dice, pads = out.dice, f"{axle}.disc.pads"
    way = dice.choice(("stated", "sector", "rectangle", "outline", "circle"))
    if way == "stated":
        out.put(f"{axle}.disc.effective_radius", radius, "length")
        return
    if way != "sector" or dice.random() < 0.5:
        out.add(f"{pads}.shape", way, way)
    out.maybe_word(0.7, f"{pads}.contact", "uniform_pressure", "uniform_wear")
    height = dice.uniform(0.035, 0.06)
    inner, outer, half = radius - height / 2, radius + height / 2, dice.uniform(0.04, 0.07)
    if way == "sector":
        if out.raw.get(f"{pads}.contact") != "uniform_pressure":
            out.twice(f"{axle}.disc.effective_radius", radius, "length")
        out.put(f"{pads}.inner_radius", inner, "length")
        out.put(f"{pads}.outer_radius", outer, "length")
    elif way == "rectangle":
        out.put(f"{pads}.outer_radius", outer, "length")
        out.put(f"{pads}.height", height, "length")
        out.put(f"{pads}.width", 2 * half, "length")
    elif way == "circle":
        out.put(f"{pads}.centre_radius", radius, "length")
        out.put(f"{pads}.diameter", height, "length")
    else:
        write_outline(out, f"{pads}.outline", (inner + outer) / 2, height / 2, half)


def write_outline(out, path, middle, tall, half):
    """A star-shaped outline about the middle of the pad, one way round or the other."""
    dice = out.dice
    count = dice.randint(3, 6)
    corners = []
    for index in range(count):
        angle = 2 * math.pi * (index + dice.uniform(-0.3, 0.3)) / count
        size = dice.uniform(0.85, 1.15)
        corners.append(
            (middle + size * tall * math.cos(angle), size * half * math.sin(angle))
        )
    if dice.random() < 0.5:
        corners.reverse()
    out.curve(path, corners, "length", "length")


def write_drum(out, axle):
    dice, drum, lining = out.dice, f"{axle}.drum", f"{axle}.drum.lining"
    shoes = out.word(f"{drum}.shoes", "leading_trailing", "two_leading", "duo_servo")
    radius = dice.uniform(0.1, 0.16)
    out.put(f"{drum}.diameter", 2 * radius, "length")
    out.between(f"{drum}.cylinder_diameter", 0.016, 0.027, "length")
    way = dice.choice(("factor", "geometry", "both", "neither"))
    if way in ("factor", "both"):
        low, high = {
            "leading_trailing": (1.8, 2.8),
            "two_leading": (2.5, 4.0),
            "duo_servo": (3.5, 6.0),
        }[shoes]
        out.between(f"{drum}.brake_factor", low, high, "plain")
    if way == "neither":
        out.maybe(0.5, f"{lining}.mu", 0.25, 0.45, "ratio")
    if way in ("geometry", "both"):
        out.between(f"{lining}.mu", 0.25, 0.4, "ratio")
        out.between(f"{lining}.pivot_radius", 0.76 * radius, 0.86 * radius, "length")
        out.between(f"{lining}.force_arm", 1.5 * radius, 1.7 * radius, "length")
        out.between(f"{lining}.heel", math.radians(8), math.radians(30), "angle")
        out.between(f"{lining}.toe", math.radians(110), math.radians(135), "angle")
        if shoes == "duo_servo":
            out.maybe(0.5, f"{lining}.secondary_heel", math.radians(5), math.radians(25), "angle")
            out.maybe(0.5, f"{lining}.secondary_toe", math.radians(110), math.radians(140), "angle")
            out.maybe(0.5, f"{lining}.secondary_mu", 0.25, 0.38, "ratio")
    out.maybe(0.5, f"{drum}.efficiency", 0.85, 1.0, "ratio")
    out.maybe(0.5, f"{drum}.threshold", 0.0, 6e5, "pressure")
    out.maybe(0.5, f"{drum}.piston_travel", 0.0, 0.001, "length")
    out.maybe(0.5, f"{drum}.compliance", 1e-6, 3e-6, "volume")
    out.maybe(0.6, f"{drum}.drum_mass", 4, 14, "mass")
    return radius


def write_valve(out, state):
    dice = out.dice
    kind = dice.choice(("none", "fixed", "load", "height", "ebd"))
    if kind == "none":
        out.maybe_word(0.5, "valve.kind", "none")
        return
    out.add("valve.kind", kind, kind)
    out.maybe_word(0.5, "valve.bypass", "none", "fitted")
    if kind == "ebd":
        return
    knee, slope = dice.uniform(15e5, 50e5), dice.uniform(0.15, 0.6)
    if dice.random() < 0.5:
        out.edge(0.1, "valve.knee", "pressure", 0, 1.9e7)
        out.edge(0.1, "valve.slope", "ratio", 0, 1)
        out.maybe(1, "valve.knee", 15e5, 50e5, "pressure")
        out.maybe(1, "valve.slope", 0.15, 0.6, "ratio")
    else:
        pairs = []
        for part in (0.4, 0.8, 1.3, 1.7, 2.2, 2.8)[: dice.randint(4, 6)]:
            front = knee * part * dice.uniform(0.95, 1.1)
            rear = front if front <= knee else knee + slope * (front - knee)
            pairs.append((front, rear * dice.uniform(0.995, 1.0)))
        out.curve("valve.gauge_pairs", pairs, "pressure", "pressure")
    if kind != "fixed":
        out.between("valve.knee_rate", 2e3, 1.5e4, "pressure per mass")
        rear = state["mass"] * (1 - state["share"])
        out.between("valve.set_mass", 0.8 * rear, 1.3 * rear, "mass")
    if kind == "height":
        out.between("valve.stiffness", 3e4, 1.2e5, "stiffness")
        out.maybe(0.6, "valve.anti_lift", 0.0, 1.1, "ratio")
        out.maybe(0.5, "valve.uncorrected_lift", -0.03, 0.06, "length")


def write_pedal(out, state):
    dice = out.dice
    fitted = dice.random() < 0.75
    ratio = dice.uniform(3, 4.5) if fitted else dice.uniform(4.5, 6.5)
    if dice.random() < 0.5:
        out.put("pedal.ratio", ratio, "plain")
    else:
        arm = dice.uniform(0.25, 0.35)
        out.put("pedal.pad_arm", arm, "length")
        out.put("pedal.rod_arm", arm / ratio, "length")
        out.twice("pedal.ratio", ratio, "plain")
    out.maybe(0.5, "pedal.efficiency", 0.75, 0.98, "ratio")
    out.maybe(0.5, "pedal.free_play", 0.0, 0.015, "length")
    out.maybe(0.7, "pedal.travel", 0.11, 0.2, "length")
    bore = dice.uniform(0.019, 0.029)
    out.put("master.bore", bore, "length")
    out.maybe(0.5, "master.efficiency", 0.9, 1.0, "ratio")
    for name in ("primary", "secondary"):
        out.maybe(0.6, f"master.{name}_stroke", 0.012, 0.03, "length")
    out.maybe(0.5, "master.take_up", 0.0, 0.003, "length")
    oil = fitted and dice.random() < 0.3
    kind = "hydraulic" if oil else "fitted" if fitted else "none"
    out.add("booster.booster", kind, kind)
    if fitted:
        write_booster(out, bore, ratio, oil)


def write_accumulator(out):
    dice = out.dice
    pressure = dice.uniform(70e5, 140e5)
    if dice.random() < 0.6:
        out.put("booster.pressure", pressure, "pressure")
        out.maybe(0.4, "booster.precharge", 0.2 * pressure, 0.9 * pressure, "pressure")
        out.maybe(0.3, "booster.pressure_low", 0.0, 0.9 * pressure, "pressure")
    out.maybe(0.5, "booster.reserve", 0.5, 4.0, "plain")
    if dice.random() < 0.5:
        pump = dice.choice(("engine", "electric"))
        out.add("booster.pump", pump, pump)


def write_booster(out, bore, ratio, oil):
    dice = out.dice
    gain, assist = dice.uniform(2.2, 6.5), dice.uniform(900, 4000)
    vacuum = dice.uniform(5e4, 8e4)
    way = dice.choice(("stated", "pairs", "pairs", "diaphragm"))
    if oil:
        write_accumulator(out)
    elif dice.random() < 0.6:
        out.put("booster.vacuum", vacuum, "pressure")
        out.maybe(0.8, "booster.vacuum_low", 0.0, 0.9 * vacuum, "pressure")
    if way == "pairs":
        # Knee between the third and the fourth pair.
        share = ratio * out.raw.get("pedal.efficiency", 0.85)
        area = math.pi * bore**2 / 4 / out.raw.get("master.efficiency", 0.96)
        knee = min(500.0, assist / (gain - 1) / share)
        pairs = []
        for part in (0.3, 0.6, 0.85, 1.3, 1.7, 2.2):
            rod = part * knee * share
            output = gain * rod if part < 1 else rod + (gain - 1) * knee * share
            pairs.append((part * knee, output / area * dice.uniform(0.999, 1.001)))
        out.curve("booster.force_pairs", pairs, "force", "pressure")
        return
    out.edge(0.05, "booster.gain", "plain", 1)
    out.maybe(0.7, "booster.gain", 2.2, 6.5, "plain")
    if way == "stated":
        out.edge(0.05, "booster.assist", "force", 0)
        out.maybe(1, "booster.assist", 900, 4000, "force")
        return
    if oil:
        out.between("booster.piston_diameter", 0.02, 0.03, "length")
    else:
        out.between("booster.diaphragm_diameter", 0.18, 0.27, "length")
    if not oil and dice.random() < 0.5:
        count = dice.choice((1, 2))
        out.add("booster.diaphragms", str(count), float(count))
    out.maybe(0.5, "booster.efficiency", 0.8, 1.0, "ratio")


def write_circuits(out, state):
    dice = out.dice
    out.word("circuits.split", *SPLITS)
    out.maybe(0.5, "circuits.hose_volume", 2e-7, 3e-6, "volume")
    out.edge(0.03, "circuits.air_volume", "volume", 0, 4.9e-5)
    out.maybe(0.5, "circuits.air_volume", 0.0, 1e-6, "volume")
    way = dice.choice(("sum", "stated", "pumped"))
    if way == "stated":
        out.between("circuits.elastic_volume", 3e-6, 1.2e-5, "volume")
    elif way == "pumped":
        offset, slope = dice.uniform(1e-6, 4e-6), dice.uniform(3e-13, 1.2e-12)
        out.curve(
            "circuits.pumped",
            [
                (p, offset + slope * p * dice.uniform(0.98, 1.02))
                for p in (2e6, 4e6, 6e6, 8e6, 10e6)
            ],
            "pressure",
            "volume",
        )


def write_parking(out, state):
    dice = out.dice
    out.maybe_word(0.7, "parking.on", "rear", "front", "all")
    out.maybe_word(0.6, "parking.control", "hand", "foot")
    out.maybe_word(0.5, "parking.place", "wheels", "shaft")
    out.maybe(0.5, "parking.force", 200, 650, "force")
    out.maybe(0.6, "driveline.axle_ratio", 2.7, 5.3, "plain")
    way = dice.choice(("none", "torque", "pull", "lever", "tester"))
    if way == "tester":
        out.between("tester.parking_left", 500, 4000, "force")
        out.between("tester.parking_right", 500, 4000, "force")
        out.maybe(0.5, "tester.lever_force", 200, 650, "force")
    if way == "torque":
        out.between("parking.torque", 600, 3000, "torque")
    elif way == "pull":
        out.between("parking.pull", 2000, 9000, "force")
    elif way == "lever":
        at_shaft = out.raw.get("parking.place") == "shaft"
        out.between("parking.ratio", 15, 60, "plain")
        out.maybe(0.5, "parking.efficiency", 0.5, 0.9, "ratio")
        out.maybe(0.6, "parking.factor", 1.0, 3.0, "plain")
        out.between("parking.radius", 0.07, 0.1 if at_shaft else 0.15, "length")


def write_road(out, state):
    dice = out.dice
    out.maybe_word(0.5, "driveline.centre", "free", "locked")
    way = dice.choice(("none", "marking", "rollout"))
    if way == "marking":
        marking = dice.choice(MARKINGS)
        out.add("speedometer.marking", marking, marking)
    elif way == "rollout":
        out.between("speedometer.rollout", 1.9, 2.7, "length")
    sensor = dice.choice((None, "wheel", "shaft", "shaft"))
    if sensor:
        out.word("speedometer.sensor", sensor)
    if sensor == "shaft":  # of no use at a wheel, and refused there
        out.maybe(0.7, "speedometer.axle_ratio", 2.7, 5.3, "plain")
    if dice.random() < 0.5:
        out.between("trailer.mass", 300, 2500, "mass")
        out.maybe(0.6, "trailer.braking_ratio", 0.2, 0.6, "ratio")
        out.maybe(0.5, "trailer.working", 0.0, 1.0, "ratio")
    out.edge(0.1, "road.adhesion", "ratio", 0.06, 0.15, 1.1)
    out.edge(0.05, "driver.target", "acceleration", 0.51, 1.0, 11.9)
    out.edge(0.05, "driver.pedal_force_most", "force", 11, 40, 1490)
    out.edge(0.05, "stop.speed", "speed", 1.1, 84)
    out.maybe(0.6, "road.adhesion", 0.4, 1.0, "ratio")
    out.maybe(0.5, "stop.speed", 10, 40, "speed")
    out.maybe(0.4, "stop.dead_time", 0.0, 0.2, "time")
    out.maybe(0.4, "stop.build_up", 0.0, 0.4, "time")
    out.maybe(0.4, "stop.reaction_time", 0.5, 3.0, "time")
    out.maybe(0.5, "driver.pedal_force", 80, 400, "force")
    out.maybe(0.5, "driver.modulation", 0.5, 1.0, "ratio")
    out.maybe(0.5, "road.sliding", 0.5, 1.1, "ratio")
    out.maybe(0.5, "driver.pedal_force_most", 300, 900, "force")
    out.maybe(0.5, "driver.target", 2.0, 8.0, "acceleration")


def write_engine(out):
    out.maybe_word(0.5, "driveline.driven", "front", "rear", "all")
    out.maybe(0.3, "driveline.gear_ratio", 0.6, 1.1, "plain")
    out.maybe(0.3, "driveline.engine_drag", 0, 120, "torque")
    out.maybe(0.3, "driveline.engine_inertia", 0.05, 1.0, "inertia")


def write_loads(out, state):
    dice = out.dice
    mass, share, wheelbase = state["mass"], state["share"], state["wheelbase"]
    if dice.random() < 0.4:
        out.between("load.empty.mass", 60, 120, "mass")
        out.maybe(0.6, "load.empty.behind_front_axle", 0.9, 1.6, "length")
        out.maybe(0.6, "load.empty.height", 0.7, 1.2, "length")
    way = state["load"]
    if way == "stated":
        out.between("load.full.mass", 0.05 * mass, 0.4 * mass, "mass")
    if way == "axles":
        # Above every part that may have been added.
        added = dice.uniform(0.25, 0.5) * mass + 300
        at = dice.uniform(0.5, 0.9)
        out.put("load.full.front_axle", mass * share + added * (1 - at), "mass")
        out.put("load.full.rear_axle", mass * (1 - share) + added * at, "mass")
    elif dice.random() < 0.5:
        out.between("load.full.behind_front_axle", 0.4 * wheelbase, wheelbase, "length")
    out.maybe(0.5, "load.full.height", 0.6, 1.5, "length")
