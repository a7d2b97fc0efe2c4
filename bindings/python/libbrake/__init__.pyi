# SPDX-License-Identifier: MIT
from libbrake import errors as errors
from libbrake.answers import compare as compare
from libbrake.fleets import fleet as fleet
from libbrake.identified import identify as identify
from libbrake.meaning import (
    criteria as criteria,
    explain as explain,
    lines as lines,
    results as results,
)
from libbrake.vehicle import Vehicle as Vehicle, load as load, loads as loads

__version__: str
