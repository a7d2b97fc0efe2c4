# SPDX-License-Identifier: MIT
"""Files that must be refused: exit status 2, nothing on standard output, and on standard error the
file, the line, the field and what is accepted. And odd files that must not be."""
import pytest

from file import plain

VEHICLE = plain.VEHICLE
FROM = "accepts measured, catalogue or estimated (and a point in decimals, not a comma)"
MASSES = "accepts kg, g, t, lb"
# What a section takes, where a line of it is not known: all that may stand there.
VEHICLE_LINES = (
    "[vehicle] takes name, before, parts, registration, identification_number, odometer, owner,"
    " builder, country, category, frame, use, secondary, first_registered, modified,"
    " mass, front_share, cg_height, roof_height, wheelbase, unsprung_mass, rated_mass, top_speed,"
    " rolling_resistance, antilock, antilock_efficiency, tyres, tyre_grip"
)
PART_LINES = "[part.NAME] takes mass, behind_front_axle, height"
LENGTHS = "accepts m, mm, cm, km, in, ft, mi"
PRESSURES = "accepts Pa, kPa, MPa, bar, mbar, psi, ksi, inHg"
PAIRS = "accepts pairs such as (20 bar, 18 bar) (60 bar, 35 bar)"
PISTONS = (
    "accepts number x diameter of ONE side, such as 2 x 48 mm, or 1 x 44 mm + 1 x 38 mm;"
    " 1 to 8 pistons"
)
PART_NAMES = "accepts names of 1 to 40 letters, digits, _ and -"
NOT_TEXT = "is not UTF-8 text, or holds a control character"
EMPTY = "the file holds no [section]; `stopmargin new` writes one to start from"
MARKINGS = "accepts forms such as LT305/70R17 121/118Q, 265/70R17, 35x12.50R17LT, 7.50R16"


def parts(count):
    """Lines of as many parts."""
    lines = "[part.p{}]\nmass = 1 kg\nbehind_front_axle = 1 m\nheight = 1 m\n"
    return "".join(lines.format(i) for i in range(count))


def named(old, new):
    """The vehicle's bytes with some of its name replaced."""
    return VEHICLE.encode().replace(old, new, 1)


# Whole files: what is wrong, the file, and the message behind the file's name.
FILES = {
    "empty": (b"", ":1: " + EMPTY),
    "only comments": (b"; nothing\n# yet\n", ":2: " + EMPTY),
    "only a section": (
        b"[vehicle]\n",
        ": vehicle.mass: is missing. Write scales.front_axle and scales.rear_axle:"
        " Scale under the wheel or axle, floor level, brakes off, driver as stated. Or:"
        " Four corner scales or a weighbridge; or give [scales]. Say what is in the tank."
        " Also missing: vehicle.roof_height, vehicle.wheelbase,"
        " front.axle.brake, front.tyre.marking, front.tyre.wheel_mass,"
        " rear.axle.brake, pedal.ratio, booster.booster, master.bore, circuits.split,"
        " vehicle.rated_mass",
    ),
    "binary": (
        bytes(range(256)),
        ":1: is not text: it holds a byte of value 0; save the file as UTF-8",
    ),
    "a NUL": (
        b"[vehicle]\nname = He\0ron\n",
        ":2: is not text: it holds a byte of value 0; save the file as UTF-8",
    ),
    "UTF-16": (
        VEHICLE.encode("utf-16"),
        ":1: is not text: it holds a byte of value 0; save the file as UTF-8",
    ),
    "a line of 10 MB": (
        b"[vehicle]\nname = " + b"x" * 10_000_000 + b"\n",
        ":2: is longer than 4000 bytes",
    ),
    "a line of 4001 bytes": (
        b"[vehicle]\n;" + b"x" * 4000 + b"\n",
        ":2: is longer than 4000 bytes",
    ),
    "over 1 MB": (
        VEHICLE.encode() + b"; 3456789\n" * 100_000,
        ":99979: the file is larger than 1000000 bytes",
    ),
    "a byte of Latin-1": (named(b"Plain", b"Pl\xe4n"), ":2: " + NOT_TEXT),
    # RFC 3629, section 4: forms that only look like UTF-8.
    "overlong UTF-8 of two bytes": (named(b"Plain", b"Pl\xc0\xafin"), ":2: " + NOT_TEXT),
    "overlong UTF-8 of three bytes": (named(b"Plain", b"Pl\xe0\x80\xafin"), ":2: " + NOT_TEXT),
    "half of a UTF-16 pair": (named(b"Plain", b"Pl\xed\xa0\x80in"), ":2: " + NOT_TEXT),
    "beyond the last letter": (named(b"Plain", b"Pl\xf4\x90\x80\x80in"), ":2: " + NOT_TEXT),
    "a letter cut off": (named(b"Plain", b"Pl\xe2\x82"), ":2: " + NOT_TEXT),
    "an escape code": (named(b"Plain", b"Pl\x1b[31m"), ":2: " + NOT_TEXT),
    "an escape code of one letter": (named(b"Plain", "Pl\x9b31m".encode()), ":2: " + NOT_TEXT),
    "a delete": (named(b"Plain", b"Pl\x7f"), ":2: " + NOT_TEXT),
    # Unicode Standard Annex 9, section 2: they turn the letters behind them around.
    "an override of direction": (named(b"Plain", "Pl\u202ein".encode()), ":2: " + NOT_TEXT),
    "an isolate of direction": (named(b"Plain", "Pl\u2066in".encode()), ":2: " + NOT_TEXT),
    "a mark of direction": (named(b"Plain", "Pl\u200fin".encode()), ":2: " + NOT_TEXT),
    "an Arabic mark of direction": (named(b"Plain", "Pl\u061cin".encode()), ":2: " + NOT_TEXT),
    "a separator of lines": (named(b"Plain", "Pl\u2028in".encode()), ":2: " + NOT_TEXT),
    "lines end with CR alone": (
        VEHICLE.replace("\n", "\r").encode(),
        ":1: lines end with CR alone; save the file with LF or CR LF",
    ),
    "byte order mark in the middle": (
        named(b"name", b"\xef\xbb\xbfname"),
        f":2: vehicle.\ufeffname: unknown name; did you mean vehicle.name? {VEHICLE_LINES}",
    ),
    "unknown section": (b"[engine]\n", ":1: engine: unknown section"),
    "unknown section near a known one": (
        b"[front.tire]\n",
        ":1: front.tire: unknown section; did you mean [front.tyre]?",
    ),
    "section with blanks": (
        b"[ vehicle ]\n",
        ":1:  vehicle : unknown section; did you mean [vehicle]?",
    ),
    "section and junk": (b"[vehicle] x\n", ":1: vehicle: has 'x' behind its bracket"),
    "section not closed": (
        b"[vehicle\n",
        ":1: is not a section: accepts [name], up to 49 bytes",
    ),
    "section without a name": (b"[]\n", ":1: is not a section: accepts [name], up to 49 bytes"),
    "section of 50 bytes": (
        b"[" + b"x" * 50 + b"]\n",
        ":1: is not a section: accepts [name], up to 49 bytes",
    ),
    "part without a name": (b"[part]\n", ":1: part: unknown section; did you mean [part.NAME]?"),
    "parts in the plural": (b"[parts]\n", ":1: parts: unknown section; did you mean [part.NAME]?"),
    "part with an empty name": (b"[part.]\n", ":1: part: " + PART_NAMES),
    "part with a blank": (b"[part.roof rack]\n", ":1: part: " + PART_NAMES),
    "part with a point": (b"[part.roof.rack]\n", ":1: part: " + PART_NAMES),
    "part with an umlaut": ("[part.räder]\n".encode(), ":1: part: " + PART_NAMES),
    "part name of 41 bytes": (b"[part." + b"x" * 41 + b"]\n", ":1: part: " + PART_NAMES),
    "25 parts": (parts(25).encode(), ":97: part: accepts up to 24 parts"),
    "name before any section": (
        b"mass = 1600 kg\n",
        ":1: mass: stands before the first [section]",
    ),
    "line without =": (
        b"[vehicle]\nmass 1600 kg\n",
        ":2: is none of [section], name = value, and comment (; or #)",
    ),
    "line with a colon": (
        b"[vehicle]\nmass: 1600 kg\n",
        ":2: has a colon where '=' is wanted: name = value",
    ),
    "line without a name": (b"[vehicle]\n= 1600 kg\n", ":2: has no name before the ="),
    "line given twice": (
        b"[vehicle]\nmass = 1600 kg\nmass = 1601 kg\n",
        ":3: vehicle.mass: is given twice; first in line 2",
    ),
    "line given twice, section opened again": (
        b"[vehicle]\nmass = 1600 kg\n[front.axle]\nbrake = disc\n[vehicle]\nmass = 1601 kg\n",
        ":6: vehicle.mass: is given twice; first in line 2",
    ),
    "curve goes on before it began": (
        b"[valve]\n(20 bar, 18 bar)\n",
        ":2: is none of [section], name = value, and comment (; or #)",
    ),
    "curve goes on without a bracket": (
        b"[valve]\ngauge_pairs = (20 bar, 18 bar)\n60 bar, 35 bar\n",
        ":3: is none of [section], name = value, and comment (; or #)",
    ),
    "what is no curve goes on": (
        b"[vehicle]\nmass = 1600 kg\n(20 bar, 18 bar)\n",
        ":3: vehicle.mass: goes on in a second line; only curves may",
    ),
    "curve from two places": (
        b"[valve]\ngauge_pairs = (20 bar, 18 bar), measured\n(60 bar, 35 bar), catalogue\n",
        ":3: valve.gauge_pairs: got 'catalogue', but the line above it says 'measured'",
    ),
}

# Changes to a vehicle that is accepted otherwise (see plain.py), and the message behind file and
# line. The line is that of the last change, or of the one marked with >.
LINES = {
    "unknown name": (
        "[vehicle] colour = red",
        f"vehicle.colour: unknown name; {VEHICLE_LINES}",
    ),
    "unknown name near a known one": (
        "[vehicle] mas = 1600 kg",
        f"vehicle.mas: unknown name; did you mean vehicle.mass? {VEHICLE_LINES}",
    ),
    "line given twice, once with a capital": (
        "[vehicle] Mass = 1600 kg",
        "vehicle.Mass: is given twice; first in line 3",
    ),
    "name with its section": (
        "[vehicle] front.tyre.rollout = 2 m",
        "vehicle.front.tyre.rollout: unknown name",
    ),
    "unknown name of a part": (
        "[part.winch] weight = 38 kg",
        f"part.winch.weight: unknown name; {PART_LINES}",
    ),
    "no value": ("[vehicle] mass =", "vehicle.mass: has no value"),
    "a word for a number": (
        "[vehicle] mass = heavy",
        "vehicle.mass: got 'heavy'; a number is wanted, such as 6150 kg",
    ),
    "not a number": (
        "[vehicle] mass = NaN kg",
        "vehicle.mass: got 'NaN kg'; a number is wanted, such as 6150 kg",
    ),
    "infinite": (
        "[vehicle] mass = inf kg",
        "vehicle.mass: got 'inf kg'; a number is wanted, such as 6150 kg",
    ),
    "minus infinite": (
        "[vehicle] mass = -inf kg",
        "vehicle.mass: got '-inf kg'; a number is wanted, such as 6150 kg",
    ),
    "too large for any number": (
        "[vehicle] mass = 1e400 kg",
        "vehicle.mass: got '1e400'; that is beyond any number",
    ),
    "too large below 0": (
        "[vehicle] mass = -1e400 kg",
        "vehicle.mass: got '-1e400'; that is beyond any number",
    ),
    "hexadecimal": (
        "[vehicle] mass = 0x640 kg",
        f"vehicle.mass: unknown unit 'x640'; {MASSES}",
    ),
    "two points": (
        "[vehicle] mass = 1.6.0 t",
        "vehicle.mass: got '1.6.0'; that is not a number",
    ),
    "comma in thousands": (
        "[vehicle] mass = 1,600 kg",
        f"vehicle.mass: got '600 kg' after the comma; {FROM}",
    ),
    "comma in decimals": (
        "[vehicle] mass = 1600,5 kg, measured",
        "vehicle.mass: got '1600,5 kg'; decimals take a point, not a comma",
    ),
    "comma in a ratio": (
        "[front.disc.pads] mu = 0,38, measured",
        "front.disc.pads.mu: got '0,38'; decimals take a point, not a comma",
    ),
    "comma in a tolerance": (
        "[vehicle] mass = 1600 kg +- 1,5 kg, measured",
        "vehicle.mass: got '1,5 kg'; decimals take a point, not a comma",
    ),
    "no unit": ("[vehicle] mass = 1600", f"vehicle.mass: has no unit; {MASSES}"),
    "unknown unit": (
        "[vehicle] mass = 250 stone",
        f"vehicle.mass: unknown unit 'stone'; {MASSES}",
    ),
    "millipascal for megapascal": (
        "[valve] gauge_pairs = (2 mPa, 18 bar)",
        f"valve.gauge_pairs: unknown unit 'mPa'; did you mean MPa? It {PRESSURES}",
    ),
    "pound-force for pound": (
        "[vehicle] mass = 3500 lbf",
        f"vehicle.mass: got a force in 'lbf'; a mass is wanted; {MASSES}",
    ),
    "pressure for length": (
        "[vehicle] cg_height = 650 kPa",
        f"vehicle.cg_height: got a pressure in 'kPa'; a length is wanted; {LENGTHS}",
    ),
    "unit where there is none": (
        "[front.disc.pads] mu = 0.4 m",
        "front.disc.pads.mu: got a length in 'm'; a plain number is wanted;"
        " accepts no unit or %",
    ),
    "two numbers": (
        "[vehicle] mass = 1600 kg 5",
        "vehicle.mass: does not understand '5' at its end",
    ),
    "comment with # close behind a value": (
        "[vehicle] mass = 1600 kg# scales",
        f"vehicle.mass: unknown unit 'kg#'; did you mean kg? It {MASSES}",
    ),
    "plus without minus": (
        "[vehicle] mass = 1600 kg + 5 kg",
        "vehicle.mass: does not understand '+ 5 kg' at its end",
    ),
    "negative mass": (
        "[vehicle] mass = -1600 kg",
        "vehicle.mass: got -1600 kg; accepts 300 to 12000 kg",
    ),
    "just below the range": (
        "[vehicle] mass = 299.9 kg",
        "vehicle.mass: got 299.9 kg; accepts 300 to 12000 kg",
    ),
    "just above the range": (
        "[vehicle] mass = 12000.1 kg",
        "vehicle.mass: got 12000.1 kg; accepts 300 to 12000 kg",
    ),
    "hair's breadth above the range": (
        "[front.disc.pads] mu = 0.9000001",
        "front.disc.pads.mu: got 0.9000001; accepts 0.05 to 0.9",
    ),
    "range in the trade's unit": (
        "[vehicle] wheelbase = 20 in",
        "vehicle.wheelbase: got 20 in; accepts 47.25 to 236.2 in",
    ),
    "negative tolerance": (
        "[vehicle] mass = 1600 kg +- -5 kg",
        "vehicle.mass: got a tolerance of -5 kg; accepts 0 to 11700 kg",
    ),
    "tolerance too large": (
        "[vehicle] mass = 1600 kg +- 12 t",
        "vehicle.mass: got a tolerance of 12 t; accepts 0 to 11.7 t",
    ),
    "tolerance in % too large": (
        "[vehicle] mass = 1600 kg +- 900 %",
        "vehicle.mass: got a tolerance of 14400 kg; accepts 0 to 11700 kg",
    ),
    "tolerance of another kind": (
        "[vehicle] mass = 1600 kg +- 5 mm",
        f"vehicle.mass: got a length in 'mm'; a mass is wanted; {MASSES}",
    ),
    "tolerance without unit, behind feet and inches": (
        "[vehicle] wheelbase = 8 ft 9 in +- 1",
        "vehicle.wheelbase: has no unit behind +-; feet or inches? Accepts +- 1 in",
    ),
    "tolerance without number": (
        "[vehicle] mass = 1600 kg +-",
        "vehicle.mass: got ''; a number is wanted, such as 6150 kg",
    ),
    "unknown word for where from": (
        "[vehicle] mass = 1600 kg, weighed",
        f"vehicle.mass: got 'weighed' after the comma; {FROM}",
    ),
    "a default is not given by hand": (
        "[vehicle] mass = 1600 kg, default",
        f"vehicle.mass: got 'default' after the comma; {FROM}",
    ),
    "two words for where from": (
        "[vehicle] mass = 1600 kg, measured, catalogue",
        "vehicle.mass: does not understand ', measured' at its end",
    ),
    "comma and nothing": (
        "[vehicle] mass = 1600 kg,",
        f"vehicle.mass: got '' after the comma; {FROM}",
    ),
    "unknown choice": (
        "[vehicle] category = M2",
        "vehicle.category: got 'M2'; did you mean M1? It accepts M1, N1."
        " Class of vehicle: M1 carries people (up to 9 seats), N1 goods, to 3.5 t.",
    ),
    "choice with a unit": (
        "[front.axle] brake = disc mm",
        "front.axle.brake: got 'disc mm'; did you mean disc? It accepts disc, drum."
        " Disc or drum on this axle.",
    ),
    "text of 64 bytes": (
        "[vehicle] name = " + "x" * 64,
        "vehicle.name: has 64 bytes; accepts up to 63",
    ),
    # Pistons
    "no piston": ("[front.disc] pistons = 0 x 48 mm", f"front.disc.pistons: {PISTONS}"),
    "half a piston": ("[front.disc] pistons = 2.5 x 48 mm", f"front.disc.pistons: {PISTONS}"),
    "nine pistons": ("[front.disc] pistons = 9 x 48 mm", f"front.disc.pistons: {PISTONS}"),
    "minus two pistons": ("[front.disc] pistons = -2 x 48 mm", f"front.disc.pistons: {PISTONS}"),
    "pistons in words": ("[front.disc] pistons = two x 48 mm", f"front.disc.pistons: {PISTONS}"),
    "pistons without number": ("[front.disc] pistons = 48 mm", f"front.disc.pistons: {PISTONS}"),
    "pistons without diameter": ("[front.disc] pistons = 2 x", f"front.disc.pistons: {PISTONS}"),
    "second group without number": (
        "[front.disc] pistons = 1 x 48 mm + 38 mm",
        f"front.disc.pistons: {PISTONS}",
    ),
    "second group left out": (
        "[front.disc] pistons = 2 x 48 mm +",
        f"front.disc.pistons: {PISTONS}",
    ),
    "pistons without unit, neither of mm nor of inches": (
        "[front.disc] pistons = 2 x 480",
        f"front.disc.pistons: has no unit; {LENGTHS}",
    ),
    "piston too wide": (
        "[front.disc] pistons = 2 x 480 mm",
        "front.disc.pistons: got 480 mm; accepts 12 to 100 mm",
    ),
    "four groups of pistons": (
        "[front.disc] pistons = 1 x 48 mm + 1 x 44 mm + 1 x 40 mm + 1 x 36 mm",
        "front.disc.pistons: accepts up to 3 groups of pistons",
    ),
    "pistons and junk": (
        "[front.disc] pistons = 2 x 48 mm 3",
        "front.disc.pistons: does not understand '3' at its end",
    ),
    "number of a composite line": (
        "[front.disc] piston_diameter = 48 mm",
        "front.disc.piston_diameter: is given by the line pistons = number x diameter",
    ),
    # Curves
    "pair not closed": (
        "[valve] gauge_pairs = (20 bar, 18 bar",
        "valve.gauge_pairs: a pair is not closed by ')'",
    ),
    "second pair not closed": (
        "[valve] gauge_pairs = (20 bar, 18 bar) (60 bar, 35 bar",
        "valve.gauge_pairs: a pair is not closed by ')'",
    ),
    "one number in a pair": (
        "[valve] gauge_pairs = (20 bar)",
        "valve.gauge_pairs: accepts pairs such as (20 bar, 18 bar)",
    ),
    "pair without brackets": (
        "[valve] gauge_pairs = 20 bar, 18 bar",
        f"valve.gauge_pairs: got '20 bar, 18 bar'; {PAIRS}",
    ),
    "comma between pairs": (
        "[valve] gauge_pairs = (20 bar, 18 bar), (60 bar, 35 bar)",
        f"valve.gauge_pairs: got ', (60 bar, 35 bar)'; {PAIRS}",
    ),
    "word in a pair": (
        "[valve] gauge_pairs = (low, 18 bar)",
        "valve.gauge_pairs: got 'low, 18 bar)'; a number is wanted",
    ),
    "pair without a unit": (
        "[valve] gauge_pairs = (20 bar, 18)",
        f"valve.gauge_pairs: has no unit; {PRESSURES}",
    ),
    "pair with a wrong unit": (
        "[circuits] pumped = (20 bar, 4 cm3) (60 bar, 7 bar)",
        "circuits.pumped: got a pressure in 'bar'; a volume is wanted;"
        " accepts m3, cm3, mm3, mL, L, in3",
    ),
    "pair with a comma in decimals": (
        "[valve] gauge_pairs = (20,5 bar, 18 bar)",
        "valve.gauge_pairs: got '20,5 bar, 18 bar)'; decimals take a point, not a comma",
    ),
    "pair with a tolerance": (
        "[valve] gauge_pairs = (20 bar +- 1 bar, 18 bar)",
        "valve.gauge_pairs: a pair takes no tolerance",
    ),
    "pair with a tolerance behind": (
        "[valve] gauge_pairs = (20 bar, 18 bar +- 1 bar)",
        "valve.gauge_pairs: a pair takes no tolerance",
    ),
    "pair outside the range": (
        "[valve] gauge_pairs = (400 bar, 18 bar)",
        "valve.gauge_pairs: got 400 bar; accepts 0 to 300 bar",
    ),
    "second number outside the range": (
        "[valve] gauge_pairs = (20 bar, -18 bar)",
        "valve.gauge_pairs: got -18 bar; accepts 0 to 300 bar",
    ),
    "25 pairs": (
        "[valve] gauge_pairs = "
        + " ".join(f"({i}bar,1bar)" for i in range(10, 22))
        + "\n"
        + " ".join(f"({i}bar,1bar)" for i in range(30, 43)),
        "valve.gauge_pairs: accepts up to 24 pairs",
    ),
    "pairs that do not rise": (
        "[valve] kind = fixed",
        "[valve] gauge_pairs = (20 bar, 18 bar) (60 bar, 35 bar) (50 bar, 30 bar)",
        "valve.gauge_pairs: the first numbers of the pairs must rise",
    ),
    "gauge pairs without a knee": (
        "[valve] kind = fixed",
        "[valve] gauge_pairs = (20 bar, 20 bar) (60 bar, 60 bar)",
        "valve.gauge_pairs: the pairs show no knee: give (front, rear) pressures,"
        " at least two of them past it",
    ),
    "force pairs without a booster": (
        "[booster] booster = fitted",
        "[booster] force_pairs = (50 N, 3 bar) (100 N, 6 bar)",
        "booster.force_pairs: the pairs show no booster: give (pedal force, line pressure),"
        " in rising order, below and past its knee",
    ),
    "force pairs that do not rise": (
        "[booster] booster = fitted",
        "[booster] force_pairs = (100 N, 30 bar) (50 N, 15 bar) (200 N, 45 bar)",
        "booster.force_pairs: the first numbers of the pairs must rise",
    ),
    "fluid pumped at one pressure": (
        "[circuits] pumped = (20 bar, 5 cm3)",
        "circuits.pumped: the readings give no line: give (pressure, fluid),"
        " two pressures or more",
    ),
    # What contradicts itself or another line
    "unknown tyre marking": (
        "[front.tyre] marking = 265-70-17",
        f"front.tyre.marking: got '265-70-17'; {MARKINGS}",
    ),
    "marking with a word behind": (
        "[front.tyre] marking = 265/70R17, or so",
        f"front.tyre.marking: got '265/70R17, or so'; {MARKINGS}",
    ),
    "marking of unknown origin": (
        "[front.tyre] marking = 265-70-17, measured",
        f"front.tyre.marking: got '265-70-17'; {MARKINGS}",
    ),
    "unknown marking of the speedometer": (
        "[speedometer] marking = huge",
        f"speedometer.marking: got 'huge'; {MARKINGS}",
    ),
    "rollout of another tyre than marked": (
        "> [front.tyre] rollout = 2.1 m",
        "[front.tyre] marking = LT305/70R17",
        "front.tyre.rollout: got 2.1 m, but a tyre marked 'LT305/70R17' rolls about 2.6199 m;"
        " one of them belongs to another tyre",
    ),
    "rolling radius against rollout": (
        "[front.tyre] rolling_radius = 300 mm",
        "front.tyre.rolling_radius: got 300 mm, but front.tyre.rollout gives 334.23 mm;"
        " leave one out",
    ),
    "scales against mass": (
        "[scales] front_axle = 880 kg",
        "[scales] rear_axle = 720 kg",
        "[vehicle] mass = 1700 kg",
        "vehicle.mass: got 1700 kg, but scales.front_axle gives 1600 kg; leave one out",
    ),
    "scales against share": (
        "[scales] front_axle = 880 kg",
        "[scales] rear_axle = 720 kg",
        "[vehicle] front_share = 60 %",
        "vehicle.front_share: got 60 %, but scales.front_axle gives 55 %; leave one out",
    ),
    "front corners against axle": (
        "[scales] rear_axle = 720 kg",
        "[scales] front_left = 400 kg",
        "[scales] front_right = 400 kg",
        "[scales] front_axle = 880 kg",
        "scales.front_axle: got 880 kg, but the corner scales add up to 800 kg; leave one out",
    ),
    "rear corners against axle": (
        "[scales] front_axle = 880 kg",
        "[scales] rear_left = 400 kg",
        "[scales] rear_right = 400 kg",
        "[scales] rear_axle = 720 kg",
        "scales.rear_axle: got 720 kg, but the corner scales add up to 800 kg; leave one out",
    ),
    "loaded axles lighter than the vehicle": (
        "[load.full] mass",
        "[load.full] rear_axle = 700 kg",
        "[load.full] front_axle = 800 kg",
        "load.full.front_axle: the axle readings add up to 1500 kg, less than the vehicle before"
        " loading, 1600 kg",
    ),
    "loaded axles against load": (
        "> [load.full] mass = 400 kg",
        "[load.full] rear_axle = 800 kg",
        "[load.full] front_axle = 900 kg",
        "load.full.mass: got 400 kg, but load.full.front_axle gives 100 kg; leave one out",
    ),
    "pedal arms against ratio": (
        "[pedal] pad_arm = 300 mm",
        "[pedal] rod_arm = 75 mm",
        "[pedal] ratio = 3",
        "pedal.ratio: got 3, but pedal.pad_arm gives 4; leave one out",
    ),
    "pedal arms beyond any ratio": (
        "[pedal] ratio",
        "[pedal] rod_arm = 20 mm",
        "[pedal] pad_arm = 600 mm",
        "pedal.pad_arm: gives pedal.ratio 30; accepts 1.5 to 10",
    ),
    "pad shape against radius": (
        "[front.disc] effective_radius = 100 mm",
        "front.disc.effective_radius: got 100 mm, but front.disc.pads.outer_radius gives 115 mm;"
        " leave one out",
    ),
    "centre of gravity outside the wheelbase": (
        "[load.full] behind_front_axle = 9 m",
        "load.full.behind_front_axle: the centre of gravity comes out 2.7 m behind the front axle,"
        " outside the wheelbase",
    ),
    "part outside the wheelbase": (
        "[part.crane] mass = 1500 kg",
        "[part.crane] height = 1 m",
        "[part.crane] behind_front_axle = 5 m",
        "part.crane.behind_front_axle: with the parts the centre of gravity comes out 3 m behind"
        " the front axle, outside the wheelbase",
    ),
    "parts heavier than the vehicle": (
        "> [vehicle] mass = 1600 kg",
        "[part.all] mass = -1700 kg",
        "[part.all] height = 1 m",
        "[part.all] behind_front_axle = 1 m",
        "vehicle.mass: the parts taken off weigh as much as the vehicle",
    ),
    "centre of gravity below the road": (
        "> [vehicle] cg_height = 650 mm",
        "[part.roof] mass = -500 kg",
        "[part.roof] height = 3 m",
        "[part.roof] behind_front_axle = 1 m",
        "vehicle.cg_height: the centre of gravity comes out below the road",
    ),
    "wheels and axles heavier than the vehicle": (
        "[vehicle] unsprung_mass = 1700 kg",
        "vehicle.unsprung_mass: must be less than the mass of the vehicle",
    ),
    "tilted higher than the wheelbase": (
        "[vehicle] wheelbase = 1.2 m",
        "[tilt] ground_axle_level = 800 kg",
        "[tilt] ground_axle_tilted = 850 kg",
        "[tilt] hub_height = 300 mm",
        "[tilt] rise = 1.2 m",
        "tilt.rise: must be less than the wheelbase",
    ),
    "tilt readings exchanged": (
        "[vehicle] cg_height",
        "[tilt] rise = 500 mm",
        "[tilt] ground_axle_level = 880 kg",
        "[tilt] hub_height = 300 mm",
        "[tilt] ground_axle_tilted = 800 kg",
        "tilt.ground_axle_tilted: gives vehicle.cg_height -312.37 mm; accepts 200 to 2000 mm",
    ),
    "disc on a drum axle": (
        "[rear.disc] mounting = fixed",
        "rear.disc.mounting: does not belong: rear.axle.brake says that this axle has a drum",
    ),
    "drum on a disc axle": (
        "[front.drum] diameter = 250 mm",
        "front.drum.diameter: does not belong: front.axle.brake says that this axle has a disc",
    ),
    "pads on a drum axle": (
        "[rear.disc.pads] mu = 0.4",
        "rear.disc.pads.mu: does not belong: rear.axle.brake says that this axle has a drum",
    ),
    "drum that locks by itself": (
        "[rear.drum.lining] mu = 0.85",
        "rear.drum.lining.mu: got 0.85: a leading shoe grabs and locks by itself at this friction:"
        " do not drive it",
    ),
    "drum that nearly locks by itself": (
        "[rear.drum.lining] mu = 0.75",
        "rear.drum.lining.mu: gives these shoes a brake factor of 40.82; accepts 0.2 to 12"
        ": they are about to grab, do not drive it",
    ),
    "toe before heel": (
        "[rear.drum.lining] heel = 40 deg",
        "[rear.drum.lining] toe = 30 deg",
        "rear.drum.lining.toe: got 30 deg, but heel is 40 deg; the toe lies farther from the pivot",
    ),
    "sector with inner over outer": (
        "[front.disc.pads] inner_radius = 140 mm",
        "[front.disc.pads] outer_radius = 135 mm",
        "front.disc.pads.outer_radius: got 135 mm, but inner_radius is 140 mm; it must be larger",
    ),
    "outline across the axle": (
        "[front.disc.pads] inner_radius",
        "[front.disc.pads] outer_radius",
        "[front.disc.pads] shape = outline",
        "[front.disc.pads] outline ="
        " (-20 mm, -20 mm) (130 mm, -20 mm) (130 mm, 20 mm) (-20 mm, 20 mm)",
        "front.disc.pads.outline: no pad has such an outline: the shape encloses no area,"
        " crosses the axle or has too few corners",
    ),
    "outline of two corners": (
        "[front.disc.pads] inner_radius",
        "[front.disc.pads] outer_radius",
        "[front.disc.pads] shape = outline",
        "[front.disc.pads] outline = (90 mm, 10 mm) (130 mm, 10 mm)",
        "front.disc.pads.outline: no pad has such an outline: the shape encloses no area,"
        " crosses the axle or has too few corners",
    ),
    "circle larger than the handbooks' table": (
        "[front.disc.pads] inner_radius",
        "[front.disc.pads] outer_radius",
        "[front.disc.pads] shape = circle",
        "[front.disc.pads] centre_radius = 100 mm",
        "[front.disc.pads] diameter = 101 mm",
        "front.disc.pads.diameter: got 101 mm, but centre_radius is 100 mm; handbooks tabulate"
        " circular pads up to where the two are equal: give a larger one as an outline",
    ),
    "diameter of a sector": (
        "[front.disc.pads] shape = sector",
        "[front.disc.pads] diameter = 60 mm",
        "front.disc.pads.diameter: is not used, because front.disc.pads.shape is sector; change one"
        " of them",
    ),
    "rectangle across the axle": (
        "[front.disc.pads] inner_radius",
        "[front.disc.pads] shape = rectangle",
        "[front.disc.pads] height = 50 mm",
        "[front.disc.pads] width = 50 mm",
        "[front.disc.pads] outer_radius = 45 mm",
        "front.disc.pads.outer_radius: no pad has such an outer_radius, height and width:"
        " the shape encloses no area, crosses the axle or has too few corners",
    ),
    # In the unit of who wrote the line
    "rollout in inches of another tyre than marked": (
        "> [front.tyre] rollout = 83 in",
        "[front.tyre] marking = LT305/70R17",
        "front.tyre.rollout: got 83 in, but a tyre marked 'LT305/70R17' rolls about 103.15 in;"
        " one of them belongs to another tyre",
    ),
    "scales in pounds against mass in pounds": (
        "[scales] front_axle = 1940 lb",
        "[scales] rear_axle = 1587 lb",
        "[vehicle] mass = 3750 lb",
        "vehicle.mass: got 3750 lb, but scales.front_axle gives 3527 lb; leave one out",
    ),
    "sector in inches with inner over outer": (
        "[front.disc.pads] inner_radius = 5.5 in",
        "[front.disc.pads] outer_radius = 5 in",
        "front.disc.pads.outer_radius: got 5 in, but inner_radius is 5.5 in; it must be larger",
    ),
    # Lines that would be lost
    "outline of a sector": (
        "[front.disc.pads] outline = (90 mm, 10 mm) (130 mm, 10 mm) (130 mm, -10 mm)",
        "front.disc.pads.outline: is not used, because front.disc.pads.shape is sector, by default;"
        " change one of them",
    ),
    "gain without a booster": (
        "[booster] gain = 4",
        "booster.gain: is not used, because booster.booster is none; change one of them",
    ),
    "knee without a valve": (
        "[valve] knee = 30 bar",
        "valve.knee: is not used, because valve.kind is none, by default; change one of them",
    ),
    "knee of an electronic distribution": (
        "[valve] kind = ebd",
        "[valve] knee = 30 bar",
        "valve.knee: is not used, because valve.kind is ebd; change one of them",
    ),
    "line of a sensing valve on a fixed one": (
        "[valve] kind = fixed",
        "[valve] knee = 30 bar",
        "[valve] slope = 0.4",
        "[valve] knee_rate = 0.05 bar/kg",
        "valve.knee_rate: is not used, because valve.kind is fixed; change one of them",
    ),
    "axle ratio of a speedometer that counts wheels": (
        "[speedometer] axle_ratio = 4.1",
        "speedometer.axle_ratio: is not used, because speedometer.sensor is wheel, by default;"
        " change one of them",
    ),
    "least vacuum above the usual one": (
        "[booster] booster = fitted",
        "[booster] gain = 4",
        "[booster] assist = 2500 N",
        "[booster] vacuum = 60 kPa",
        "[booster] vacuum_low = 70 kPa",
        "booster.vacuum_low: got 70 kPa, more than the 60 kPa of vacuum; it is the least of it",
    ),
    "vacuum of a hydraulic booster": (
        "[booster] booster = hydraulic",
        "[booster] assist = 2500 N",
        "[booster] vacuum = 60 kPa",
        "booster.vacuum: is not used, because booster.booster is hydraulic; change one of them",
    ),
    "accumulator of a vacuum booster": (
        "[booster] booster = fitted",
        "[booster] assist = 2500 N",
        "[booster] reserve = 3",
        "booster.reserve: is not used, because booster.booster is fitted; change one of them",
    ),
    "gas that the pump cannot press together": (
        "[booster] booster = hydraulic",
        "[booster] assist = 2500 N",
        "[booster] pressure = 80 bar",
        "[booster] precharge = 90 bar",
        "booster.precharge: got 90 bar, more than the 80 bar of booster.pressure",
    ),
    "one and a half diaphragms": (
        "[booster] booster = fitted",
        "[booster] gain = 4",
        "[booster] assist = 2000 N",
        "[booster] diaphragms = 1.5",
        "booster.diaphragms: got 1.5; accepts 1 or 2",
    ),
}

MISSING = {
    "mass": (
        "[vehicle] mass",
        "vehicle.mass: is missing. Write scales.front_axle and scales.rear_axle:"
        " Scale under the wheel or axle, floor level, brakes off, driver as stated. Or:"
        " Four corner scales or a weighbridge; or give [scales]. Say what is in the tank.",
    ),
    "share of the front axle": (
        "[vehicle] front_share",
        "vehicle.front_share: is missing. Write scales.front_axle and scales.rear_axle:"
        " Scale under the wheel or axle, floor level, brakes off, driver as stated. Or:"
        " Axle weights: front over front plus rear; or give [scales].",
    ),
    "height of the centre of gravity": (
        "[vehicle] cg_height",
        "vehicle.cg_height: is missing. Write vehicle.roof_height: Tape, as it stands now;"
        " before it where [lift] is given. Or: Tilted-axle test, [tilt]; or roof_height"
        " for an estimate.",
    ),
    "wheelbase": (
        "[vehicle] wheelbase",
        "vehicle.wheelbase: is missing. How to get it: Tape from hub to hub, both sides,"
        " wheels straight.",
    ),
    "front brake": ("[front.axle] brake", "front.axle.brake: is missing. How to get it: Look."),
    "rear brake": ("[rear.axle] brake", "rear.axle.brake: is missing. How to get it: Look."),
    "size of the tyre": (
        "[front.tyre] rollout",
        "front.tyre.rolling_radius: is missing. Write front.tyre.marking: Sidewall, e.g."
        " LT305/70R17 121/118Q or 35x12.50R17LT. Or: Give rollout; or marking for the"
        " nominal size."
        " Also missing: front.tyre.wheel_mass",
    ),
    "mass of the wheel": (
        "[front.tyre] wheel_mass",
        "front.tyre.wheel_inertia: is missing. Write front.tyre.wheel_mass: Bathroom or hook"
        " scale. Or: Swing test: swing_radius,"
        " swing_length, swing_period; or wheel_mass.",
    ),
    "rear tyre, once it is begun": (
        "[rear.tyre] wheel_mass = 20 kg",
        "rear.tyre.rolling_radius: is missing. Write rear.tyre.marking: Sidewall, e.g."
        " LT305/70R17 121/118Q or 35x12.50R17LT. Or: Give rollout; or marking for the"
        " nominal size."
        " Also missing: rear.tyre.wheel_mass",
    ),
    "mounting": ("[front.disc] mounting", "front.disc.mounting: is missing. How to get it: Look."),
    "pistons": (
        "[front.disc] pistons",
        "front.disc.pistons: is missing. How to get it: Vernier caliper on the piston, not on the"
        " boot. Never count both sides.",
    ),
    "shape of the pads": (
        "[front.disc.pads] inner_radius",
        "[front.disc.pads] outer_radius",
        "front.disc.effective_radius: is missing. How to get it: Axle to middle of the pad; or the"
        " pad's shape in its pads section.",
    ),
    "inner radius of the pads": (
        "[front.disc.pads] inner_radius",
        "front.disc.pads.inner_radius: is missing, as front.disc.pads.outer_radius is given."
        " How to get it: Vernier caliper."
        " Also missing: front.disc.effective_radius",
    ),
    "width of the pads": (
        "[front.disc.pads] inner_radius",
        "[front.disc.pads] shape = rectangle",
        "[front.disc.pads] height = 40 mm",
        "front.disc.pads.width: is missing, as front.disc.pads.outer_radius is given."
        " How to get it: Vernier caliper."
        " Also missing: front.disc.effective_radius",
    ),
    "arrangement of the shoes": (
        "[rear.drum] shoes",
        "rear.drum.shoes: is missing. How to get it: One fixed anchor between both shoes and one"
        " cylinder: leading_trailing; two cylinders: two_leading; shoes linked and free:"
        " duo_servo.",
    ),
    "drum": (
        "[rear.drum] diameter",
        "rear.drum.diameter: is missing. How to get it: Drum gauge.",
    ),
    "wheel cylinder": (
        "[rear.drum] cylinder_diameter",
        "rear.drum.cylinder_diameter: is missing. How to get it: Stamped on it; gauge.",
    ),
    "pivot of the shoes": (
        "[rear.drum.lining] pivot_radius",
        "rear.drum.lining.pivot_radius: is missing, as others of the lining are given; or give none"
        " of them and drum.brake_factor: leading-trailing 1.8 to 2.8, two-leading 2.5 to 4,"
        " duo-servo 3.5 to 6."
        " How to get it: Tape on the back plate.",
    ),
    "arm of the shoes": (
        "[rear.drum.lining] force_arm",
        "rear.drum.lining.force_arm: is missing, as others of the lining are given; or give none"
        " of them and drum.brake_factor: leading-trailing 1.8 to 2.8, two-leading 2.5 to 4,"
        " duo-servo 3.5 to 6."
        " How to get it: Tape on the back plate.",
    ),
    "heel of the lining": (
        "[rear.drum.lining] heel",
        "rear.drum.lining.heel: is missing, as others of the lining are given; or give none"
        " of them and drum.brake_factor: leading-trailing 1.8 to 2.8, two-leading 2.5 to 4,"
        " duo-servo 3.5 to 6."
        " How to get it: Protractor on the shoe.",
    ),
    "toe of the lining": (
        "[rear.drum.lining] toe",
        "rear.drum.lining.toe: is missing, as others of the lining are given; or give none"
        " of them and drum.brake_factor: leading-trailing 1.8 to 2.8, two-leading 2.5 to 4,"
        " duo-servo 3.5 to 6."
        " How to get it: Protractor on the shoe.",
    ),
    "pedal ratio": (
        "[pedal] ratio",
        "pedal.ratio: is missing. How to get it: pad_arm over rod_arm.",
    ),
    "one arm of the pedal": (
        "[pedal] pad_arm = 300 mm",
        "pedal.rod_arm: is missing, as pedal.pad_arm is given. How to get it: Rule.",
    ),
    "booster or none": (
        "[booster] booster",
        "booster.booster: is missing. How to get it: Behind the master cylinder: a wide round"
        " shell, or a block with oil lines.",
    ),
    "assist of the booster": (
        "[booster] booster = fitted",
        "[booster] gain = 4",
        "booster.assist: is missing, as a booster is fitted. Write"
        " booster.diaphragm_diameter: Shell diameter less about 25 mm. Or: force_pairs past the"
        " knee; or diaphragm_diameter and vacuum, hydraulic piston_diameter and pressure.",
    ),
    "piston of a hydraulic booster": (
        "[booster] booster = hydraulic",
        "booster.piston_diameter: is missing, as the booster is hydraulic; or force_pairs, or"
        " assist. How to get it: Maker's data; else force_pairs.",
    ),
    "master cylinder": (
        "[master] bore",
        "master.bore: is missing. How to get it: Stamped on it; gauge.",
    ),
    "split": (
        "[circuits] split",
        "circuits.split: is missing. How to get it: Follow the lines from the master cylinder.",
    ),
    "knee of the valve": (
        "[valve] kind = fixed",
        "valve.knee: is missing, as a valve is fitted; or write valve.kind = none, as if"
        " it were not there: the rear locks sooner. How to get it: Two gauges, front and rear:"
        " gauge_pairs; bleed, then hold a hard pedal for a minute."
        " Also missing: valve.slope",
    ),
    "slope of the valve": (
        "[valve] kind = fixed",
        "[valve] knee = 30 bar",
        "valve.slope: is missing, as a valve is fitted; or write valve.kind = none, as if"
        " it were not there: the rear locks sooner. How to get it: Two gauges, front and rear:"
        " gauge_pairs; bleed, then hold a hard pedal for a minute.",
    ),
    "knee rate of the valve": (
        "[valve] kind = load",
        "[valve] knee = 30 bar",
        "[valve] slope = 0.4",
        "valve.knee_rate: is missing, as the valve senses load. How to get it: Knee at two known"
        " rear-axle loads."
        " Also missing: valve.set_mass",
    ),
    "set mass of the valve": (
        "[valve] kind = load",
        "[valve] knee = 30 bar",
        "[valve] slope = 0.4",
        "[valve] knee_rate = 0.05 bar/kg",
        "valve.set_mass: is missing, as the valve senses load. How to get it: Scale under the rear"
        " axle when knee was read.",
    ),
    "stiffness behind the valve": (
        "[valve] kind = height",
        "[valve] knee = 30 bar",
        "[valve] slope = 0.4",
        "[valve] knee_rate = 0.05 bar/kg",
        "[valve] set_mass = 700 kg",
        "valve.stiffness: is missing, as the valve senses height. How to get it: Known load in the"
        " back, tape at the arch.",
    ),
    "load": (
        "[load.full] mass",
        "load.full.mass: is missing. Write vehicle.rated_mass: Maker's plate. Or: Scale; or"
        " front_axle and rear_axle with the load in.",
    ),
    "place of a part": (
        "[part.winch] mass = 38 kg",
        "[part.winch] height = 780 mm",
        "part.winch.behind_front_axle: is missing. How to get it: Tape.",
    ),
    "readings of the tilt": (
        "[tilt] rise = 500 mm",
        "tilt.ground_axle_level: is missing, as tilt.rise is given. How to get it: Scale, same"
        " session as the tilted reading."
        " Also missing: tilt.ground_axle_tilted, tilt.hub_height",
    ),
    "other corner": (
        "[scales] front_left = 440 kg",
        "scales.front_right: is missing, as scales.front_left is given. How to get it: Scale under"
        " the wheel or axle, floor level, brakes off, driver as stated."
        " Also missing: scales.rear_axle",
    ),
    "other axle": (
        "[scales] front_axle = 880 kg",
        "scales.rear_axle: is missing, as the front axle was weighed. How to get it: Scale under"
        " the wheel or axle, floor level, brakes off, driver as stated.",
    ),
    "other axle, loaded": (
        "[load.full] front_axle = 900 kg",
        "load.full.rear_axle: is missing, as load.full.front_axle is given."
        " How to get it: Weighbridge.",
    ),
    "rest of the swing test": (
        "[front.tyre] swing_period = 2 s",
        "front.tyre.swing_radius: is missing, as front.tyre.swing_period is given."
        " How to get it: Tape."
        " Also missing: front.tyre.swing_length",
    ),
}

SETTINGS = {
    "unknown path": ("nothing=5 m", ": nothing: unknown path"),
    "unknown path near a known one": (
        "front.disc.pistn=1 x 50 mm",
        ": front.disc.pistn: unknown path; did you mean front.disc.pistons? [front.disc] takes"
        " mounting, pistons, effective_radius, efficiency, threshold, compliance, rotor_mass,"
        " rotor, rotor_diameter, hat_mass",
    ),
    "unknown part": (
        "part.winch.mass=5 kg",
        f": part.winch.mass: unknown path; {PART_LINES}",
    ),
    "wrong unit": (
        "vehicle.mass=3500 lbf",
        f": vehicle.mass: got a force in 'lbf'; a mass is wanted; {MASSES}",
    ),
    "no unit": ("vehicle.mass=1600", f": vehicle.mass: has no unit; {MASSES}"),
    "no equals sign": (
        "vehicle.mass",
        ': got \'vehicle.mass\'; accepts path=value, such as front.tyre.rollout="2.70 m"',
    ),
    "no path": (
        "=5 kg",
        ': got \'=5 kg\'; accepts path=value, such as front.tyre.rollout="2.70 m"',
    ),
    "empty": ("", ': got \'\'; accepts path=value, such as front.tyre.rollout="2.70 m"'),
    "no value": ("vehicle.mass=", ": vehicle.mass: has no value"),
    "two words for a path": (
        "vehicle.mass now=1600 kg",
        ": vehicle.mass: has ' now' between path and =",
    ),
    # Written into a file, the rest of the name would be lost.
    "a comment in a name": (
        "vehicle.name=Heron ; the old one",
        ": vehicle.name: has ; behind a blank, which begins a comment in a file",
    ),
    "a comment for a name": (
        "vehicle.name=; none",
        ": vehicle.name: has ; behind a blank, which begins a comment in a file",
    ),
    "two lines": ("vehicle.name=a\nb", f": {NOT_TEXT}"),
    "an escape code": ("vehicle.name=\x1b[31m", f": {NOT_TEXT}"),
    "too long": ("vehicle.name=" + "x" * 300, ": vehicle.name: has 300 bytes; accepts up to 63"),
    "longer than a line": (
        "vehicle.name=" + "x" * 4001,
        ": vehicle.name: has 4001 bytes; accepts up to 4000",
    ),
    "a mark of direction": ("vehicle.name=\u202egnp.exe", f": {NOT_TEXT}"),
    "outside the range": (
        "vehicle.mass=20 t",
        ": vehicle.mass: got 20 t; accepts 0.3 to 12 t",
    ),
}


def refused(text, folder, *options):
    """What `check` complains of, as it must: status 2 and nothing on standard output."""
    (folder / "wrong.ini").write_bytes(text if isinstance(text, bytes) else text.encode())
    done = plain.run("check", "wrong.ini", *options, folder=folder)
    assert (done.returncode, done.stdout) == (2, b"")
    return done.stderr.decode()


def test_plain_vehicle_is_accepted():
    assert plain.run("check", "/dev/stdin", given=VEHICLE).returncode in (0, 1, 3)


@pytest.mark.parametrize("file, message", FILES.values(), ids=FILES)
def test_wrong_file(file, message, tmp_path):
    assert refused(file, tmp_path) == f"wrong.ini{message}\n"


@pytest.mark.parametrize("row", LINES.values(), ids=LINES)
def test_wrong_line(row, tmp_path):
    *changes, message = row
    marked = next((change for change in changes if change.startswith("> ")), changes[-1])
    text = plain.changed(*(change.removeprefix("> ") for change in changes))
    section, _, line = marked.removeprefix("> ").partition(" ")
    lines = text.splitlines()
    number = lines.index(line.splitlines()[-1], lines.index(section)) + 1
    assert refused(text, tmp_path) == f"wrong.ini:{number}: {message}\n"


@pytest.mark.parametrize("row", MISSING.values(), ids=MISSING)
def test_missing_line(row, tmp_path):
    *changes, message = row
    assert refused(plain.changed(*changes), tmp_path) == f"wrong.ini: {message}\n"


@pytest.mark.parametrize("setting, message", SETTINGS.values(), ids=SETTINGS)
def test_wrong_setting(setting, message, tmp_path):
    assert refused(VEHICLE, tmp_path, "--set", setting) == f"--set{message}\n"


@pytest.mark.parametrize(
    "setting, message",
    [
        # Right by itself; what is wrong shows only beside the other lines, and stands in none.
        ("front.disc.piston_diameter_2=40 mm", "there is no such group in pistons"),
        ("front.tyre.marking=abc", f"got 'abc'; {MARKINGS}"),
    ],
)
def test_setting_that_does_not_fit_the_file(setting, message, tmp_path):
    path = setting.partition("=")[0]
    assert refused(VEHICLE, tmp_path, "--set", setting) == f"wrong.ini: {path}: {message}\n"


def test_directory(tmp_path):
    done = plain.run("check", ".", folder=tmp_path)
    assert (done.returncode, done.stdout, done.stderr) == (
        2,
        b"",
        b".: cannot be read: Is a directory\n",
    )


def test_no_such_file(tmp_path):
    done = plain.run("check", "none.ini", folder=tmp_path)
    assert done.returncode == 2
    assert done.stdout == b""
    assert done.stderr.startswith(b"none.ini: cannot be opened")


# ---- odd, but right ------------------------------------------------------------------------------

ODD = {
    "byte order mark": "\ufeff" + VEHICLE,
    "CR LF": VEHICLE.replace("\n", "\r\n"),
    "no end of the last line": VEHICLE.rstrip("\n"),
    "blanks before names": VEHICLE.replace("\n", "\n   "),
    "tabs for blanks": VEHICLE.replace(" = ", "\t=\t").replace("\n", "\n\t"),
    "no blanks": VEHICLE.replace(" = ", "=").replace(" mm", "mm").replace(" kg", "kg"),
    "blanks at the ends": VEHICLE.replace("\n", "  \t\n"),
    "empty lines": VEHICLE.replace("\n", "\n\n"),
    "comments with #": "# one\n" + VEHICLE.replace("\n", "\n# another = 5 kg\n"),
    "comments with ;": "; one\n" + VEHICLE.replace("\n", "\n  ; another = 5 kg\n"),
    "comments behind": VEHICLE.replace("\n", "   ; measured = at home, [part] (x)\n"),
    "sections in another order": "[".join(
        [""] + sorted(VEHICLE.removeprefix("[").split("\n["), reverse=True)
    ).replace("[", "\n["),
    "section opened again": plain.changed("[vehicle] mass") + "[vehicle]\nmass = 1600 kg\n",
    "plain word for where from": VEHICLE.replace(" kg\n", " kg, estimated\n"),
    "line of 4000 bytes": VEHICLE + ";" + "x" * 3999 + "\n",
    "file of 1 MB": (VEHICLE + "; 3456789\n" * 100_000)[: 1_000_000 - 1] + "\n",
    "plus sign": VEHICLE.replace("= 1600 kg", "= +1600 kg"),
    "power of ten": VEHICLE.replace("= 1600 kg", "= 1.6e3 kg"),
    "share without %": VEHICLE.replace("= 55 %", "= 0.55"),
    "other units": VEHICLE.replace("= 1600 kg", "= 1.6 t").replace("2500 mm", "250 cm"),
}


@pytest.mark.parametrize("text", ODD.values(), ids=ODD)
def test_odd_file_says_the_same(text):
    assert plain.check(text) == plain.check(VEHICLE)


@pytest.mark.parametrize(
    "line",
    [
        "[vehicle] mass = 1600 kg ± 20 kg, measured",
        "[vehicle] mass = 1600 kg±20 kg,measured",
        "[vehicle] mass = 1600 kg +/- 20 kg, measured",
        "[vehicle] mass = 1600kg+-20kg, measured",
        "[vehicle] mass = 1600 kg +- 0.02 t, measured",
        "[vehicle] mass = 1600 kg +- 1.25 %, measured",
        "[vehicle] mass = 1600 kg +- 20 kg , measured ; on the scales, twice",
        "[vehicle] mass = 1600 kg\t+-\t20 kg,\tmeasured\t; on the scales",
    ],
)
def test_odd_tolerance_says_the_same(line):
    usual = plain.changed("[vehicle] mass = 1600 kg +- 20 kg, measured")
    assert plain.check(plain.changed(line)) == plain.check(usual)


CURVE = "[valve]\nkind = fixed\ngauge_pairs = (20 bar, 18 bar) (60 bar, 30 bar) (90 bar, 39 bar)"


@pytest.mark.parametrize(
    "curve",
    [
        "(20 bar, 18 bar)(60 bar,30 bar)\t( 90 bar , 39 bar ), measured",
        "(20 bar, 18 bar)\n    (60 bar, 30 bar)\n    (90 bar, 39 bar), measured",
        "(20 bar, 18 bar)\n(60 bar, 30 bar) (90 bar, 39 bar), measured",
        "(20 bar, 18 bar), measured\n    (60 bar, 30 bar) ; second\n    (90 bar, 39 bar) ; third",
        "(20 bar, 18 bar), measured\n; a comment between\n\n    (60 bar, 30 bar) (90 bar, 39 bar)",
        "(2 MPa, 1800 kPa) (6 MPa, 3000 kPa) (9 MPa, 3900 kPa), measured",
    ],
)
def test_odd_curve_says_the_same(curve):
    usual = plain.check(VEHICLE + CURVE + ", measured\n")
    odd = plain.check(VEHICLE + "[valve]\nkind = fixed\ngauge_pairs = " + curve + "\n")
    assert odd == usual
    assert odd["vehicle"]["valve.gauge_pairs"]["from"] == "measured"
    assert odd["vehicle"]["valve.gauge_pairs"]["value"] == [[2e6, 1.8e6], [6e6, 3e6], [9e6, 3.9e6]]


def test_a_curve_of_24_pairs_stands_on_one_line():
    """Given what a line of 198 bytes could not hold, when read, then every pair is there."""
    pairs = [(5.0 + i, 4.0 + i if i < 12 else 10.0 + i / 2) for i in range(24)]
    line = " ".join(f"({x} bar, {y} bar)" for x, y in pairs)
    assert len(line) > 198
    read = plain.check(VEHICLE + f"[valve]\nkind = fixed\ngauge_pairs = {line}, measured\n")
    value = read["vehicle"]["valve.gauge_pairs"]["value"]
    assert value == pytest.approx([pytest.approx([x * 1e5, y * 1e5]) for x, y in pairs])


def test_24_parts_add_up():
    """24 parts of 1 kg at one place are one of 24 kg there."""
    many = plain.check(VEHICLE + parts(24))["results"]
    one = plain.check(VEHICLE + parts(1).replace("= 1 kg", "= 24 kg"))["results"]
    for path, result in many.items():
        assert result["value"] == pytest.approx(one[path]["value"], rel=1e-9), path


def test_text_of_63_bytes_of_utf8_comes_through():
    name = "Ärger mit der Bremse, Теснота, ブレーキ!"
    assert len(name.encode()) <= 63
    report = plain.check(plain.changed(f"[vehicle] name = {name}"))
    assert report["vehicle"]["vehicle.name"]["value"] == name


def test_us_units_say_the_same():
    """The plain vehicle in the units of the US trade, exact by the definition of inch and pound
    (NIST Special Publication 811, appendix B)."""
    us = VEHICLE
    for number, unit, factor, other in [
        ("1600", "kg", 0.45359237, "lb"),
        ("22", "kg", 0.45359237, "lb"),
        ("400", "kg", 0.45359237, "lb"),
        ("650", "mm", 25.4, "in"),
        ("2500", "mm", 304.8, "ft"),
        ("57", "mm", 25.4, "in"),
        ("250", "mm", 25.4, "in"),
        ("22", "mm", 25.4, "in"),
    ]:
        assert f" {number} {unit}\n" in us
        us = us.replace(f" {number} {unit}\n", f" {float(number) / factor!r} {other}\n")
    metric = plain.check(VEHICLE)["results"]
    for path, result in plain.check(us)["results"].items():
        assert result["value"] == pytest.approx(metric[path]["value"], rel=1e-9), path


# ---- nothing that was given is lost --------------------------------------------------------------


def test_corners_in_front_and_one_axle_behind():
    """Given corner scales in front and a weighbridge behind, then the sum and the weaker source."""
    text = plain.changed(
        "[vehicle] mass",
        "[vehicle] front_share",
        "[scales] front_left = 440 kg, measured",
        "[scales] front_right = 440 kg, estimated",
        "[scales] rear_axle = 720 kg, measured",
    )
    mass = plain.check(text)["vehicle"]["vehicle.mass"]
    assert (mass["value"], mass["from"]) == (1600, "estimated")


def test_rear_tyre_left_out_follows_the_front_tyre():
    """Given a rollout, then a rolling radius set over it holds at both axles; one set for the rear
    alone holds there, to the last bit."""
    millimetre = 0.001  # SI brochure, table 7: milli
    radius = plain.check(VEHICLE, "--set", "front.tyre.rolling_radius=350 mm")["vehicle"]
    assert radius["front.tyre.rolling_radius"]["value"] == 350 * millimetre
    assert radius["rear.tyre.rolling_radius"]["value"] == 350 * millimetre
    both = ("--set", "front.tyre.rolling_radius=350 mm", "--set", "rear.tyre.rolling_radius=340 mm")
    rear = plain.check(VEHICLE, *both)["vehicle"]["rear.tyre.rolling_radius"]["value"]
    assert rear == 340 * millimetre


def test_what_is_not_fitted_may_be_taken_away_by_a_setting():
    """Given a booster with its lines, when --set takes it away, then its lines are no fault."""
    text = plain.changed(
        "[booster] booster = fitted", "[booster] gain = 4", "[booster] assist = 2 kN"
    )
    without = plain.check(text, "--set", "booster.booster=none")["results"]
    assert without == plain.check(VEHICLE)["results"]


def test_a_stated_tolerance_of_nothing_is_not_the_usual_one():
    stated = plain.check(plain.changed("[vehicle] mass = 1600 kg +- 0 kg"))["vehicle"]
    assert stated["vehicle.mass"]["tolerance"] == 0
    usual = plain.check(VEHICLE)["vehicle"]["vehicle.mass"]
    assert (usual["tolerance"], usual["usual_tolerance"]) == (32, True)  # 2 % by the catalogue
