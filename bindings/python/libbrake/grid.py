# SPDX-License-Identifier: MIT
"""Cases of a study: values along axes, those outside their ranges left out of the work, and the
table of what came of them."""
import itertools
import math
import operator
from array import array

from libbrake import _core
from libbrake.arrays import doubles, numpy
from libbrake.errors import Refused
from libbrake.table import Table

# Numbers of one table: 4 GB.
_MOST = 1 << 29


def not_known(lengths):
    """Numbers for every position along some axes, not known yet."""
    count = math.prod(lengths)
    if count > _MOST:
        raise ValueError(f"got {count:.4g} numbers to work out; accepts up to {_MOST:.4g} at once")
    np = numpy()
    return array("d", [math.nan]) * count if np is None else np.full(count, math.nan)


def _inside(index, values):
    """Places of the values that are inside the range of a line."""
    if _core.quantity_takes(index, values):
        return range(len(values))
    return [at for at, one in enumerate(values) if _core.quantity_takes(index, array("d", [one]))]


class Grid:
    """Values of lines, every combination of them or `together` value by value, and other axes
    behind them. A value outside the range of its line is not worked out, unless none is inside:
    then the library says why.
    """

    def __init__(self, vehicle, lines, others=None, together=False):
        self.vehicle, self.together = vehicle.copy(), together
        self.lines = array("d", (index for index, _, _ in lines.values()))
        self.values = {path: values for path, (_, _, values) in lines.items()} | (others or {})
        kept = [_inside(index, values) for index, _, values in lines.values()]
        kept += [range(len(values)) for values in (others or {}).values()]
        if together and [len(at) for at in kept] != [len(at) for at in self.values.values()]:
            kept = [sorted(set(kept[0]).intersection(*kept[1:]))] * len(kept)
        if not all(map(len, kept)):
            kept = [range(len(values)) for values in self.values.values()]
        self.kept = dict(zip(self.values, kept))

    def _once(self, numbers):
        """Of numbers an axis: one for all where they go together."""
        return list(numbers)[: 1 if self.together else None]

    def lengths(self):
        """Positions along each dimension."""
        return self._once(map(len, self.values.values()))

    def inner(self):
        """The same of what is worked out."""
        return self._once(map(len, self.kept.values()))

    def taken(self):
        """Values of the lines that are worked out."""
        every = [values if len(self.kept[name]) == len(values)
                 else doubles([values[at] for at in self.kept[name]])
                 for name, values in self.values.items()]  # fmt: skip
        return every[: len(self.lines)]

    def spread_out(self, values, behind):
        """Numbers at the places of the cases that were worked out, NaN at the others; `behind`:
        lengths of what each case has."""
        lengths = [*self.lengths(), *behind]
        kept = [*self._once(self.kept.values()), *map(range, behind)]
        if [len(at) for at in kept] == lengths:
            return values
        room, np = not_known(lengths), numpy()
        if np is not None:
            room.reshape(lengths)[np.ix_(*kept)] = values.reshape([len(at) for at in kept])
            return room
        steps = [math.prod(lengths[at + 1 :]) for at in range(len(lengths))]
        for place, value in zip(itertools.product(*kept), values):
            room[sum(map(operator.mul, place, steps))] = value
        return room

    def number(self, place):
        """Number of a case among those that are worked out; -1: it is not."""
        number = 0
        for at, kept in zip(place, self._once(self.kept.values())):
            if at not in kept:
                return -1
            number = number * len(kept) + kept.index(at)
        return number

    def outside(self, place):
        """Why a case was not worked out."""
        at = place * len(self.values) if self.together else place
        case = {name: float(values[one]) for one, (name, values) in zip(at, self.values.items())}
        for name in list(case)[: len(self.lines)]:
            if at[list(case).index(name)] in self.kept[name]:
                continue
            try:
                self.vehicle.copy().set({name: case[name]})
            except Refused as refusal:
                return str(refusal)
        return ""


class Cases(Table):
    """A Table of cases, some of which may have been refused: their numbers are NaN, `notes` say
    why."""

    def __init__(self, arrays, units, axes, grid, along=None):
        about = {"vehicle": grid.vehicle.digest()}
        super().__init__(arrays, units, axes, about=about, along=along)
        self._grid = grid

    def _refused(self):
        """Places in a row of cases that may have been refused."""
        raise NotImplementedError

    def _why(self, numbers):
        """Why cases that were worked out are refused, by their numbers; empty when they are not."""
        raise NotImplementedError

    def _words(self, places):
        numbers = [self._grid.number(place) for place in places]
        inside = iter(self._why([number for number in numbers if number >= 0]))
        return [self._grid.outside(place) if number < 0 else next(inside)
                for place, number in zip(places, numbers)]  # fmt: skip

    def refusal(self, *at):
        """Why a case was refused, in words; empty when it was not. `at`: its place along each axis,
        `t.refusal(3, 0)`.
        """
        lengths = self._grid.lengths()
        if len(at) != len(lengths):
            raise ValueError(f"got {len(at)} places; accepts one along each of {len(lengths)} axes")
        place = tuple(range(length)[one] for one, length in zip(at, lengths))
        return self._words([place])[0]

    @property
    def notes(self):
        """Why each case was refused, in words, an array along the axes; empty where it was not."""
        lengths, np = self._grid.lengths(), numpy()
        words = [""] * math.prod(lengths)
        refused = list(self._refused())
        places = [_place(at, lengths) for at in refused]
        for at, said in zip(refused, self._words(places)):
            words[at] = said
        return words if np is None else np.array(words, dtype=object).reshape(lengths)


def _place(at, lengths):
    """Place along each axis of one in a row."""
    place = []
    for length in reversed(lengths):
        at, one = divmod(at, length)
        place.append(one)
    return tuple(reversed(place))
