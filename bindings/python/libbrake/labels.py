# SPDX-License-Identifier: MIT
"""Arrays with labels: what goes into a function of the model as Series, DataFrame, DataArray or
masked array comes out as one, its index, coordinates and mask kept."""


def _library(value):
    """The library whose labels a value has; empty: it has none."""
    name = type(value).__module__.partition(".")[0]
    return name if name in ("pandas", "xarray") else ""


def _of_pandas(values):
    """The values, and what gives a result the index of the first of them."""
    first = next(value for value in values if _library(value))
    axes = [getattr(first, name) for name in ("index", "columns") if hasattr(first, name)]
    for other in filter(_library, values):
        same = [getattr(other, name, None) for name in ("index", "columns") if hasattr(first, name)]
        if type(other) is not type(first) or not all(map(lambda a, b: a.equals(b), axes, same)):
            raise ValueError("Series with other indexes do not go together; align them before")

    def dress(found):
        if found.shape != first.shape:
            raise ValueError(f"arrays of shape {found.shape} do not go with the index of "
                             f"{first.shape}")  # fmt: skip
        return type(first)(found, *axes)

    return values, dress


def _of_xarray(values):
    """The values along the same dimensions, and what gives a result their coordinates."""
    import xarray

    for value in values:
        if not isinstance(value, xarray.DataArray) and getattr(value, "ndim", 0):
            raise ValueError("an array beside a DataArray has no dimensions; make one of it too")
    named = [value for value in values if isinstance(value, xarray.DataArray)]
    whole = iter(xarray.broadcast(*xarray.align(*named, join="exact")))
    plain = [next(whole) if isinstance(value, xarray.DataArray) else value for value in values]
    first = next(value for value in plain if isinstance(value, xarray.DataArray))
    return plain, lambda found: xarray.DataArray(found, first.coords, first.dims)


def _of_masks(np, values):
    """The values, and what masks a result where any of them is masked."""
    masks = [np.ma.getmaskarray(value) for value in values if isinstance(value, np.ma.MaskedArray)]

    def dress(found):
        mask = np.logical_or.reduce([np.broadcast_to(mask, found.shape) for mask in masks])
        return np.ma.array(found, mask=mask)

    return values, dress


def taken_off(np, values):
    """The values, and what puts their labels on a result: None when they have none."""
    libraries = set(map(_library, values)) - {""}
    if len(libraries) > 1:
        raise TypeError("arrays of pandas and of xarray do not go together")
    if libraries:
        return _of_pandas(values) if "pandas" in libraries else _of_xarray(values)
    if any(isinstance(value, np.ma.MaskedArray) for value in values):
        return _of_masks(np, values)
    return values, None
