# SPDX-License-Identifier: MIT
"""Lines as people write them: what each must be read as, what is ambiguous, and that a file which
was written again says the same. Inch and pound: NIST Special Publication 811, Appendix B.5."""
import math

import pytest
from hypothesis import HealthCheck, given, settings, strategies as st

from file import plain

INCH = 0.0254  # m

# setting, value [SI], tolerance [SI]; None: the usual one of the line
READ = [
    ("master.bore=15/16 in", 15 / 16 * INCH, None),
    ('master.bore=15/16"', 15 / 16 * INCH, None),
    ('master.bore=0.9375"', 15 / 16 * INCH, None),
    ("master.bore=1 3/8 in", 11 / 8 * INCH, None),
    ("master.bore=1-3/8 in", 11 / 8 * INCH, None),
    ("master.bore=1 IN +- 1/64", INCH, INCH / 64),
    ("vehicle.wheelbase=8 ft 9 in", 105 * INCH, None),
    ("vehicle.wheelbase=8' 9.3\"", 105.3 * INCH, None),
    ("vehicle.wheelbase=8\u2019 9 1/2\u201d", 105.5 * INCH, None),
    ("vehicle.wheelbase=6'2\"", 74 * INCH, None),
    ("vehicle.wheelbase=8 ft 9 in +- 1 in", 105 * INCH, INCH),
    ("vehicle.wheelbase=105 inches", 105 * INCH, None),
    ('front.tyre.overall_diameter=26"', 26 * INCH, None),
    ("front.tyre.rollout=82-83 in", 82.5 * INCH, 0.5 * INCH),
    ("front.tyre.rollout=82 in - 83 in", 82.5 * INCH, 0.5 * INCH),
    ("front.tyre.rollout=82 to 83 in", 82.5 * INCH, 0.5 * INCH),
    ("front.tyre.rollout=82\u201383 in", 82.5 * INCH, 0.5 * INCH),
    ("front.tyre.rollout=2110 mm +-10", 2.110, 0.010),
    ("front.tyre.rollout=2110 mm \u00b110", 2.110, 0.010),
    ("front.tyre.rollout=2110 mm;measured", 2.110, None),
    ("front.tyre.rollout=2110 mm, Measured", 2.110, None),
    ("front.tyre.rollout=2110 mm;chalk and tape, twice", 2.110, None),
    ("front.disc.pads.mu=0.35-0.45", 0.40, 0.05),
    ("front.disc.pads.mu=35-45 %", 0.40, 0.05),
    # SAE J866 (2019), table 1, by the first letter: D to 0.25, E to 0.35, F to 0.45, G to 0.55
    ("front.disc.pads.mu=DD", 0.20, 0.05),
    ("front.disc.pads.mu=EF", 0.30, 0.05),
    ("front.disc.pads.mu=FF", 0.40, 0.05),
    ("front.disc.pads.mu=fe, catalogue", 0.40, 0.05),
    ("rear.drum.lining.mu=FF", 0.40, 0.05),
    ("front.disc.pads.mu=GG", 0.50, 0.05),
    ("front.disc.piston_diameter=57 MM", 0.057, None),
    ("vehicle.top_speed=105 MPH", 105 * 1609.344 / 3600, None),
    ("vehicle.rated_mass=4500 LBS", 4500 * 0.45359237, None),
    ("driver.target=0.6 g", 0.6 * 9.80665, None),
    ("pedal.ratio=4:1", 4.0, None),
    ("heat.ambient=95 \u00b0F", 308.15, None),
    ("front.disc.pads.mu=40 % +- 5", 0.40, 0.05),
    ("Vehicle.CG_Height=650 mm", 0.650, None),
]


@pytest.mark.parametrize("setting, value, tolerance", READ, ids=[row[0] for row in READ])
def test_a_line_as_it_is_written_in_a_workshop_is_read(setting, value, tolerance):
    path = setting.partition("=")[0].lower()
    said = plain.check(plain.VEHICLE, "--set", setting)["vehicle"]
    row = said[path]
    assert row["value"] == pytest.approx(value, rel=1e-12)
    if tolerance is not None:
        assert row["tolerance"] == pytest.approx(tolerance, rel=1e-9)


PISTONS = [
    ("2 X 45 mm", "2 x 45 mm"),
    ("2 \u00d7 45 mm", "2 x 45 mm"),
    ("2 X 45", "2 x 45 mm"),
    ("2 x 1.75", "2 x 44.45 mm"),
    ("1 x 38 mm, 1 x 34 mm", "1 x 38 mm + 1 x 34 mm"),
    ("1 x 38 mm, 1 x 34 mm, measured", "1 x 38 mm + 1 x 34 mm"),
    ("1 x 1 3/4 in + 1 x 1 1/2 in", "1 x 44.45 mm + 1 x 38.1 mm"),
]


@pytest.mark.parametrize("written, meant", PISTONS)
def test_pistons_are_counted_as_people_write_them(written, meant):
    path = "front.disc.pistons"
    one = plain.check(plain.changed(f"[front.disc] pistons = {written}"))["vehicle"]
    other = plain.check(plain.changed(f"[front.disc] pistons = {meant}"))["vehicle"]
    assert plain.alike(one[path]["value"], other[path]["value"])


CHOICES = [
    ("[heat] fluid = DOT 4", "heat.fluid", "DOT4"),
    ("[heat] fluid = dot 5.1", "heat.fluid", "DOT5.1"),
    ("[front.axle] brake = Disc", "front.axle.brake", "disc"),
    ("[rear.drum] shoes = Leading-Trailing", "rear.drum.shoes", "leading_trailing"),
    ("[vehicle] tyres = all terrain", "vehicle.tyres", "all_terrain"),
    ("[circuits] split = ii", "circuits.split", "II"),
    ("[vehicle] country = us", "vehicle.country", "US"),
]


@pytest.mark.parametrize("line, path, meant", CHOICES)
def test_choices_do_not_hang_on_blanks_dashes_and_capitals(line, path, meant):
    assert plain.check(plain.changed(line))["vehicle"][path]["value"] == meant


def test_sections_and_names_may_have_capitals():
    text = plain.VEHICLE.replace("[front.axle]", "[Front.Axle]").replace("mass =", "Mass =")
    assert plain.alike(plain.check(text), plain.check(plain.VEHICLE))


def test_a_comment_may_begin_with_a_hash_but_not_in_a_name():
    """Given `# comment` behind a number and a # in a name, the first is left out, the second
    kept."""
    text = plain.changed(
        "[vehicle] name = Truck # 2",
        "[vehicle] wheelbase = 2500 mm # tape, both sides",
        "[front.tyre] marking = 205/70R14 # sidewall",
    )
    said = plain.check(text)["vehicle"]
    assert said["vehicle.name"]["value"] == "Truck # 2"
    assert said["vehicle.wheelbase"]["value"] == 2.5
    assert said["front.tyre.marking"]["value"] == "205/70R14"


def test_a_line_still_to_be_filled_in_counts_as_left_out():
    for dots in ("...", "\u2026"):
        text = plain.changed(f"[heat] cooling = {dots}  ; open wheels: 0.9")
        assert plain.alike(plain.check(text), plain.check(plain.VEHICLE))


REFUSED = [
    ("vehicle.wheelbase=8 ft 13 in", "less than 12 inches, such as 8 ft 9 in"),
    ("vehicle.wheelbase=8.5 ft 3 in", "accepts whole feet"),
    ("vehicle.wheelbase=8 ft 9 in +- 1", "feet or inches? Accepts +- 1 in"),
    ("front.tyre.rollout=83-82 in", "the smaller number comes first"),
    ("front.tyre.rollout=82-83 in +- 1 in", "leave +- out"),
    ("pedal.ratio=4 to 1", "a ratio of 4 to 1 is written 4"),
    ("master.bore=1/3 in", "such as 15/16 in"),
    ("master.bore=1 17/16 in", "less than 1"),
    ("vehicle.mass=3/4 t", "write decimals"),
    ("front.disc.pads.mu=HH", "such as 0.55-0.60"),
    ("front.disc.pads.mu=CC", "such as 0.10-0.15"),
    ("front.disc.pads.mu=ZZ", "such as 0.35-0.45"),
    ("front.disc.efficiency=FF", "a number is wanted"),
    ("front.tyre.rollout=2510 mm;10", "begins a comment"),
    ("circuits.split=front/rear", "II front | rear"),
    ("front.axle.brake=drums", "did you mean drum?"),
    ("front.disc.mounting=sliding", "Floating caliper (pistons on one side)"),
    ("parking.pull=900 lb", "a scale that reads lb reads lbf"),
    ("driver.pedal_force=60 kg", "a scale that reads kg reads kgf"),
    # limits in the unit of who wrote the line: 1.2 m are 47.2441 in, 0.1 m 3.93701 in
    ("vehicle.wheelbase=20 in", "accepts 47.25 to 236.2 in"),
    ("vehicle.wheelbase=3 ft 9 in", "got 45 in; accepts 47.25 to 236.2 in"),
    ("vehicle.mass=500 lb", "accepts 661.4 to 26450 lb"),
]


@pytest.mark.parametrize("setting, says", REFUSED, ids=[row[0] for row in REFUSED])
def test_what_has_two_meanings_is_refused_with_what_to_write(setting, says):
    done = plain.run("check", "/dev/stdin", "--set", setting, given=plain.VEHICLE)
    assert done.returncode == 2
    assert says in done.stderr.decode()


# ---- there and back ------------------------------------------------------------------------------

LENGTH = "vehicle.wheelbase"
whole = st.integers(4, 19)
inches = st.integers(0, 11)
halves = st.sampled_from([(n, d) for d in (2, 4, 8, 16, 32, 64) for n in range(1, d, 2)])


@st.composite
def written_length(draw):
    """A wheelbase in one of the forms, and what it is in metres with its tolerance."""
    feet, inch, (over, under) = draw(whole), draw(inches), draw(halves)
    total = (12 * feet + inch + over / under) * INCH
    more = draw(st.integers(1, 9))
    return draw(
        st.sampled_from(
            [
                (f"{12 * feet + inch} {over}/{under} in", total, None),
                (f"{12 * feet + inch}-{over}/{under}\"", total, None),
                (f"{feet} ft {inch} {over}/{under} in", total, None),
                (f"{feet}'{inch} {over}/{under}\" +- {over}/{under} in", total,
                 over / under * INCH),
                (f"{100 * feet}-{100 * feet + more} mm", (100 * feet + more / 2) / 1e3,
                 more / 2e3),
                (f"{100 * feet} mm +- {more}", feet / 10, more / 1e3),
            ]
        )
    )


@settings(
    max_examples=120,
    deadline=None,
    derandomize=True,
    database=None,
    suppress_health_check=list(HealthCheck),
)
@given(written_length())
def test_a_length_in_any_form_reads_and_writes_as_the_same_number(form):
    """value and tolerance by the definition of the inch; outside the range it is refused with the
    limits in its unit."""
    text, value, tolerance = form
    line = f"{LENGTH}={text}"
    if not 1.2 <= value <= 6.0:
        done = plain.run("check", "/dev/stdin", "--set", line, given=plain.VEHICLE)
        assert done.returncode == 2 and "accepts" in done.stderr.decode()
        return
    said = plain.check(plain.VEHICLE, "--set", line, "--set", "load.full.mass=0 kg")["vehicle"]
    assert math.isclose(said[LENGTH]["value"], value, rel_tol=1e-12)
    if tolerance is not None:
        assert math.isclose(said[LENGTH]["tolerance"], tolerance, rel_tol=1e-9)


# ---- what newcomers typed ------------------------------------------------------------------------

# Lines that were refused once, as they were typed: each is taken, or told what to write.
TYPED = [
    ("front.disc.pistons=2 x 45 in", "accepts 0.4725 to 3.937 in"),
    ("vehicle.wheelbase=105.3 mm", "accepts 1200 to 6000 mm"),
    ("vehicle.wheelbase=105.3", "has no unit; accepts m, mm, cm, km, in, ft, mi"),
    ("front.tyre.rollout=98.8 ft", "accepts 3.281 to 14.76 ft"),
    ("master.bore=15/16 in", None),
    ("master.bore=0.9375", "has no unit"),
    ("master.bore=1 3/8 in", None),
    ('master.bore=15/16"', None),
    ('master.bore=0.9375"', None),
    ("master.bore=0,9375 in", "a point in decimals, not a comma"),
    ("vehicle.rated_mass=5,350 lb", "a point in decimals, not a comma"),
    ("vehicle.rated_mass=5350 lbs", None),
    ("vehicle.wheelbase=8' 9.3\"", None),
    ("vehicle.wheelbase=8 ft 9 in", None),
    ("pedal.ratio=4:1", None),
    ("pedal.ratio=4 to 1", "a ratio of 4 to 1 is written 4"),
    ("front.disc.pads.mu=FF", None),
    ("parking.pull=900 lb", "a scale that reads lb reads lbf"),
    ("driver.pedal_force=60 kg", "a scale that reads kg reads kgf"),
    ("driver.target=0.8 g", None),
    ("heat.fluid=DOT 4", None),
    ("heat.fluid=dot4", None),
    ("circuits.split=front/rear", "II front | rear"),
    ("circuits.split=ii", None),
    ("front.axle.brake=Disc", None),
    ("rear.axle.brake=drums", "did you mean drum?"),
    ("vehicle.top_speed=105 MPH", None),
    ("front.disc.mounting=sliding", "accepts floating, fixed"),
    ("front.tyre.rollout=2110 mm +-10", None),
    ("front.tyre.rollout=2110 mm, measured by me", "accepts measured, catalogue or estimated"),
    ("front.tyre.rollout=83-84 in", None),
    ("front.tyre.rollout=~99 in", "a number is wanted, such as"),
    ("vehicle.curb_weight=4360 lb", "vehicle.mass"),
    ("front.caliper.pistons=2 x 45 mm", "[front.disc]"),
    ("front.tyre.marking=37x12.50R17LT 124Q E", "got 2.1 m"),  # read; the rollout is another's
]


@pytest.mark.parametrize("setting, says", TYPED, ids=[row[0] for row in TYPED])
def test_what_newcomers_typed_is_taken_or_told_what_to_write(setting, says):
    done = plain.run("check", "/dev/stdin", "--set", setting, given=plain.VEHICLE)
    if says is None:
        assert done.returncode in (0, 1, 3), done.stderr.decode()
    else:
        assert done.returncode == 2 and says in done.stderr.decode()


def test_vacuum_is_read_off_the_gauge():
    """18 in Hg: 18 x 3386.389 Pa (NIST Special Publication 811, B.8)."""
    text = plain.changed("[booster] booster = fitted", "[booster] diaphragm_diameter = 9 in")
    for written in ("18 in Hg", "18 inHg", "18 inches Hg", '18" Hg'):
        said = plain.check(text, "--set", f"booster.vacuum={written}")["vehicle"]
        assert said["booster.vacuum"]["value"] == pytest.approx(18 * 3386.389, rel=1e-12)
