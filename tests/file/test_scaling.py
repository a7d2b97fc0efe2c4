# SPDX-License-Identifier: MIT
"""What must follow when one number changes, whatever the others are.

Each property is asked through the command, on vehicles drawn at random around the plain one (see
plain.py). Where the reason is not the definition itself it stands in the test."""
import math

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

from file import plain

G = 9.80665  # m/s2, standard gravity (CGPM 1901)

# Enough to find a wrong power or sign at once, few enough to be quick; the same at every run.
quick = settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
)


# Usual values that the properties are not about: nothing rolls, the tyres have the road's own grip.
LEVEL = plain.changed("[vehicle] rolling_resistance = 0", "[vehicle] tyre_grip = 1")


def results(*setting, text=LEVEL):
    """Values of the results, SI, with lines set."""
    options = [word for line in setting for word in ("--set", line)]
    return plain.results(text, *options)


@st.composite
def bodies(draw):
    """Lines of some vehicle; the rest is plain."""
    return (
        f"vehicle.mass={draw(st.floats(800, 3000))!r} kg",
        f"vehicle.front_share={draw(st.floats(40, 65))!r} %",
        f"vehicle.cg_height={draw(st.floats(400, 1000))!r} mm",
        f"vehicle.wheelbase={draw(st.floats(2000, 3500))!r} mm",
        f"load.full.mass={draw(st.floats(0, 600))!r} kg",
    )


# Unboosted, 100 to 200 N give 9 to 17 bar here: above the thresholds of both axles, and less than
# any axle locks at on the best of roads.
ROAD = "road.adhesion=1.3"
gentle = st.floats(100, 200).map(lambda n: (f"driver.pedal_force={n!r} N", ROAD))


@quick
@given(st.integers(1, 4), st.floats(20, 60))
def test_twice_the_pistons_give_twice_the_torque(number, diameter):
    """Torque = 2 mu p A r; follows from the definition."""
    few = results(f"front.disc.pistons={number} x {diameter!r} mm")
    more = results(f"front.disc.pistons={2 * number} x {diameter!r} mm")
    wide = results(f"front.disc.pistons={number} x {diameter * math.sqrt(2)!r} mm")
    for path in ("brakes.front_piston_area", "brakes.front_torque_gain"):
        assert more[path] == pytest.approx(2 * few[path], rel=1e-12)
        assert wide[path] == pytest.approx(2 * few[path], rel=1e-12)
    area = number * math.pi / 4 * (diameter / 1000) ** 2
    assert few["brakes.front_piston_area"] == pytest.approx(area, rel=1e-12)
    # Two wheels, two pads; friction and efficiency of the catalogue; mean of 95 and 135 mm.
    torque = 2 * 2 * 0.38 * 0.97 * area * 0.115
    assert few["brakes.front_torque_gain"] == pytest.approx(torque, rel=1e-12)


@quick
@given(st.lists(st.tuples(st.integers(1, 4), st.floats(20, 60)), min_size=2, max_size=3))
def test_unequal_pistons_add_up(groups):
    """Areas of one side add up; follows from the definition."""
    area = "brakes.front_piston_area"
    alone = [results(f"front.disc.pistons={n} x {d!r} mm")[area] for n, d in groups]
    line = " + ".join(f"{n} x {d!r} mm" for n, d in groups)
    assert results(f"front.disc.pistons={line}")[area] == pytest.approx(sum(alone), rel=1e-12)


@quick
@given(st.floats(0.1, 0.45))
def test_twice_the_friction_gives_twice_the_torque_of_a_disc(mu):
    gain = "brakes.front_torque_gain"
    once, twice = (results(f"front.disc.pads.mu={m!r}") for m in (mu, 2 * mu))
    assert twice[gain] == pytest.approx(2 * once[gain], rel=1e-12)
    assert twice["brakes.rear_torque_gain"] == once["brakes.rear_torque_gain"]


@quick
@given(st.floats(0.1, 0.3), st.floats(1.05, 2.0))
def test_more_friction_gives_a_drum_more_than_its_share(mu, more):
    """The leading shoe is drawn in, C = mu c .. / (A - mu B), the trailing one held off, with a
    plus; so C / mu = 2 A c .. / (A^2 - mu^2 B^2), which rises with mu."""
    gain = "brakes.rear_torque_gain"
    low, high = (results(f"rear.drum.lining.mu={m!r}")[gain] for m in (mu, more * mu))
    assert high > more * low


@quick
@given(bodies(), st.floats(1.8, 2.4), st.floats(1.01, 1.4), gentle)
def test_bigger_tyres_never_help(body, rollout, more, foot):
    """a = sum T / (m r + sum J / r), T by the pressure alone. J is a share of m_w (D/2)^2 with D in
    proportion to r, so every term of the denominator rises with r."""
    small, big = (
        results(*body, *foot, f"front.tyre.rollout={r!r} m") for r in (rollout, more * rollout)
    )
    for load in ("empty", "full"):
        assert big[f"{load}.cg.height"] == small[f"{load}.cg.height"]
        for path in ("brakes_alone", "at_pedal_force"):
            path = f"{load}.deceleration.{path}"
            assert big[path] < small[path], path


@quick
@given(bodies(), st.floats(1.9, 2.4), st.floats(1.01, 1.4), gentle)
def test_deceleration_times_effective_mass_times_radius_stays(body, rollout, more, foot):
    """It is the sum of the torques, which the tyres do not change; follows from the definition."""

    def torque(rollout):
        r = results(*body, *foot, f"front.tyre.rollout={rollout!r} m")
        return r["full.deceleration.at_pedal_force"] * r["full.mass.effective"] * rollout

    assert torque(more * rollout) == pytest.approx(torque(rollout), rel=1e-9)


@quick
@given(bodies(), st.floats(1.01, 2.0), gentle)
def test_more_mass_never_shortens_the_stop(body, more, foot):
    """a = sum T / (r m_eff) while no wheel locks, and the distance falls with a: its derivative is
    -v^2 / (2 a^2) - t_b^2 / 24."""
    force = foot[0].replace("pedal_force", "pedal_force_most")
    mass = float(body[0].partition("=")[2].removesuffix(" kg"))
    light, heavy = (
        results(*body, force, ROAD, f"vehicle.mass={m!r} kg") for m in (mass, more * mass)
    )
    for load in ("empty", "full"):
        assert light[f"{load}.deceleration.most"] == light[f"{load}.deceleration.brakes_alone"]
        assert heavy[f"{load}.deceleration.most"] < light[f"{load}.deceleration.most"]
        assert heavy[f"{load}.stop.distance"] > light[f"{load}.stop.distance"]


@quick
@given(bodies(), st.floats(-100, 200), st.floats(-0.5, 2.5))
def test_axle_loads_add_up_and_balance(body, part_mass, behind):
    """Sum of forces, and of moments about the front axle; follows from the definition."""
    text = plain.VEHICLE + (
        f"[part.box]\nmass = {part_mass!r} kg\nbehind_front_axle = {behind!r} m\nheight = 1 m\n"
    )
    bare, r = results(*body), results(*body, text=text)
    wheelbase = float(body[3].partition("=")[2].removesuffix(" mm")) / 1000
    for load in ("empty", "full"):
        total, front, rear = (r[f"{load}.mass.{w}"] for w in ("total", "front_axle", "rear_axle"))
        moment = total * r[f"{load}.cg.behind_front_axle"]
        without = bare[f"{load}.mass.total"] * bare[f"{load}.cg.behind_front_axle"]
        assert front + rear == pytest.approx(total, rel=1e-12)
        assert total == pytest.approx(bare[f"{load}.mass.total"] + part_mass, rel=1e-12)
        assert moment == pytest.approx(without + part_mass * behind, rel=1e-9)
        assert rear * wheelbase == pytest.approx(moment, rel=1e-9)


# Discs all round, all alike, and no load.
TWIN = plain.changed(
    "[vehicle] rolling_resistance = 0",
    "[vehicle] tyre_grip = 1",
    "[rear.drum] shoes",
    "[rear.drum] diameter",
    "[rear.drum] cylinder_diameter",
    "[rear.drum.lining] pivot_radius",
    "[rear.drum.lining] force_arm",
    "[rear.drum.lining] heel",
    "[rear.drum.lining] toe",
    "[rear.axle] brake = disc",
    "[rear.disc] mounting = floating",
    "[rear.disc] pistons = 1 x 57 mm",
    "[rear.disc.pads] inner_radius = 95 mm",
    "[rear.disc.pads] outer_radius = 135 mm",
    "[load.full] mass = 0 kg",
    "[front.tyre] wheel_mass",
    "[front.tyre] wheel_inertia = 1 kg*m2",
)
# [m] angular momentum that the road takes from four wheels, over m a: it throws load forward as a
# centre of gravity so much higher would.
SPIN = 4 * 1.0 / (2.1 / (2 * math.pi)) / 1600


@quick
@given(st.floats(0.2, 0.9), st.floats(2.0, 3.5), st.floats(0.4, 0.9), st.floats(0.05, 0.15))
def test_equal_axles_lock_together_where_their_loads_are_equal(height, wheelbase, ratio, apart):
    """Equal brakes and wheels give equal tyre forces F = T/r - J a/r^2 at every pressure. So both
    axles use the same adhesion where they carry the same load: s + z h/L = 1/2, s the share of the
    front axle at rest, z = a/g, h the height with SPIN added. Below that z the front axle carries
    less and locks first, above it the rear one. On a road of adhesion z itself both lock at
    once: 2 F = 2 z m g / 2, so a = z g and no adhesion is left unused. The height is chosen
    anew where s would leave its range."""
    share = 0.5 - ratio * (height + SPIN) / wheelbase
    if not 0.2 < share < 0.5:
        height = 0.2 * wheelbase / ratio - SPIN
        share = 0.5 - 0.2
    lines = (
        f"vehicle.front_share={share!r}",
        f"vehicle.cg_height={height!r} m",
        f"vehicle.wheelbase={wheelbase!r} m",
    )
    together = results(*lines, f"road.adhesion={ratio!r}", text=TWIN)
    assert together["empty.balance.rear_first_above"] == pytest.approx(ratio * G, rel=1e-9)
    assert together["empty.balance.lock_deceleration"] == pytest.approx(ratio * G, rel=1e-9)
    assert together["empty.balance.efficiency"] == pytest.approx(1.0, rel=1e-9)
    slippery = results(*lines, f"road.adhesion={ratio - apart!r}", text=TWIN)
    rough = results(*lines, f"road.adhesion={ratio + apart!r}", text=TWIN)
    assert slippery["empty.balance.lock_axle"] == 0
    assert rough["empty.balance.lock_axle"] == 1
    assert max(slippery["empty.balance.efficiency"], rough["empty.balance.efficiency"]) < 1


@quick
@given(bodies(), st.floats(0.1, 1.2), st.floats(1.01, 1.3))
def test_a_better_road_never_locks_sooner_and_is_never_used_beyond_its_adhesion(body, k, more):
    """Tyre forces are at most k times loads, and the loads add up to the weight."""
    poor, good = (results(*body, f"road.adhesion={a!r}") for a in (k, min(1.3, more * k)))
    for load in ("empty", "full"):
        lock = f"{load}.balance.lock_deceleration"
        assert good[lock] >= poor[lock]
        assert poor[f"{load}.balance.efficiency"] <= 1 + 1e-12


@quick
@given(st.floats(1.5, 5.0))
def test_twice_the_pedal_ratio_halves_the_force_and_doubles_the_travel(ratio):
    """Lever; follows from the definition. The free play is travel of the pad itself."""
    free = 0.003  # m, the catalogue's usual value
    one, two = (results(f"pedal.ratio={r!r}") for r in (ratio, 2 * ratio))
    for load in ("empty", "full"):
        force, travel = f"{load}.pedal.force_for_target", f"{load}.pedal.travel"
        assert two[force] == pytest.approx(one[force] / 2, rel=1e-12)
        assert two[travel] - free == pytest.approx(2 * (one[travel] - free), rel=1e-9)
        pressure = f"{load}.pedal.pressure_for_target"
        assert two[pressure] == one[pressure]


@quick
@given(st.floats(15, 34))
def test_twice_the_master_cylinder_takes_twice_the_force(bore):
    """Pressure = force over area; follows from the definition."""
    force = "full.pedal.force_for_target"
    one, two = (results(f"master.bore={d!r} mm")[force] for d in (bore, bore * math.sqrt(2)))
    assert two == pytest.approx(2 * one, rel=1e-12)


@quick
@given(st.floats(10, 150))
def test_twice_the_speed_has_four_times_the_energy(speed):
    """m v^2 / 2; follows from the definition."""
    rotor = "front.disc.rotor_mass=6 kg"
    one, two = (results(f"stop.speed={v!r} km/h", rotor) for v in (speed, 2 * speed))
    for path in ("full.stop.energy", "full.stop.front_rise"):
        assert two[path] == pytest.approx(4 * one[path], rel=1e-12)


@quick
@given(st.floats(10, 100), st.floats(1.01, 3))
def test_a_stronger_hand_brake_holds_more(ratio, more):
    """Torque in proportion to the leverage; the grade that it holds never falls."""
    rest = ("parking.factor=2", "parking.radius=125 mm")
    weak, strong = (results(f"parking.ratio={r!r}", *rest) for r in (ratio, more * ratio))
    path = "full.parking.available"
    assert strong[path] == pytest.approx(more * weak[path], rel=1e-12)
    for end in ("up", "down"):
        path = f"full.parking.grade_{end}"
        assert strong[path] >= weak[path]


@quick
@given(bodies(), st.floats(50, 1500), st.floats(1.01, 3))
def test_a_heavier_trailer_without_brakes_never_helps(body, mass, more):
    """The same force slows more mass; follows from the definition."""
    light, heavy = (results(*body, f"trailer.mass={m!r} kg") for m in (mass, more * mass))
    alone = results(*body)
    for load in ("empty", "full"):
        tow, most = f"{load}.tow.without_brakes", f"{load}.deceleration.most"
        assert heavy[tow] < light[tow] < alone[most]
        assert alone[tow] is None
