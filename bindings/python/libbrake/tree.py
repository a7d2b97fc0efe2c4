"""Names with dots as attributes inside attributes."""


class Tree:
    """Values by path: `t.full.stop.distance` is the value of `full.stop.distance`."""

    def __init__(self, values):
        for path, value in values.items():
            head, _, rest = path.partition(".")
            if rest:
                self.__dict__.setdefault(head, {})[rest] = value
            else:
                self.__dict__[head] = value
        for name, value in self.__dict__.items():
            if isinstance(value, dict):
                self.__dict__[name] = Tree(value)

    def __repr__(self):
        inside = (f"{name}={value!r}" for name, value in self.__dict__.items())
        return f"({', '.join(inside)})"


class Named(dict):
    """A dict whose keys are attributes as well."""

    def __getattr__(self, name):
        try:
            return self[name]
        except KeyError:
            raise AttributeError(f"no '{name}'; there are {', '.join(self)}") from None

    def __dir__(self):
        return list(self)
