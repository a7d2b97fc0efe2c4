from libbrake import errors as errors
from libbrake.vehicle import Vehicle as Vehicle, load as load, loads as loads

__version__: str
