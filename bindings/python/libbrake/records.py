# SPDX-License-Identifier: MIT
"""Structs that hold tables, to the bytes of C and back.

A shape is a letter of the module struct for a number, (count, shape) for a table, (class, [shapes])
for a struct.
"""
import itertools
import struct


def _code(shape):
    """Format for the module struct, aligned as C does."""
    if isinstance(shape, str):
        return shape
    head, inner = shape
    if isinstance(head, int):
        return _code(inner) * head
    fields = "".join(map(_code, inner))
    align = "0" + ("d" if "d" in fields else "i")
    return align + fields + align


def _numbers(shape, value):
    """The numbers of a value in their order; a table may be shorter than its room."""
    if isinstance(shape, str):
        yield {"d": float, "?": bool, "c": str.encode}.get(shape, int)(value)
        return
    head, inner = shape
    if isinstance(head, int):
        items = list(value)
        if len(items) > head or (len(items) < head and not isinstance(inner, str)):
            raise ValueError(f"got {len(items)} items; accepts {head}")
        for item in items:
            yield from _numbers(inner, item)
        yield from itertools.repeat(0, head - len(items))
        return
    fields = list(value)
    if len(fields) != len(inner):
        raise ValueError(f"got {len(fields)} fields; accepts {head.__name__} of {len(inner)}")
    for part, field in zip(inner, fields):
        yield from _numbers(part, field)


def _value(shape, numbers):
    if isinstance(shape, str):
        return next(numbers)
    head, inner = shape
    if isinstance(head, int):
        return tuple(_value(inner, numbers) for _ in range(head))
    return head(*(_value(part, numbers) for part in inner))


def record(shape, value=None):
    """The bytes of a struct; without a value zeros."""
    code = _code(shape)
    if value is None:
        return bytearray(struct.calcsize(code))
    return bytearray(struct.pack(code, *_numbers(shape, value)))


def read(shape, room):
    """The struct that the bytes are."""
    return _value(shape, iter(struct.unpack(_code(shape), room)))
