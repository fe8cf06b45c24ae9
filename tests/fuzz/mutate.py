"""Make one file out of another: as bytes, as lines, or as a tree of values."""

import json
from collections.abc import Callable
from contextlib import suppress
from random import Random
from typing import Any

__all__ = ["mutated"]

LONGEST = 20_000
NASTY: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 0.001, -0.0, 1e308, -1e308, 5e-324, float("nan"), float("inf"),
    2**63, -(2**63), 10**30, "", " ", "W1", "none", "0", "1e9", "\0", "\u202e", "\ud7ff", "a" * 300,
    "../../x", "=1+1", "<script>", [], {}, [[]], [{}], {"id": "W1"}, [0, 0], [1, 2, 3], [[0, 0], [0, 0]],
    [[1, 1], [2, 1], [1, 1]], "\ud800", "\x1b[31m", "n\nn", "9" * 5000, [[[[[[[[[[[[]]]]]]]]]]]],
    {"\0": {"": [None]}},
)  # fmt: skip
WORDS = (
    b"nan", b"inf", b"1e999", b"-0", b"[", b"]", b"{", b"}", b'"', b"'", b"=", b"\n", b"\r", b"\0", b"\xff",
    b"\xef\xbb\xbf", b"[" * 2000, b'{"a":' * 2000, b"a." * 1500, b'"""', b"\\ud800",
    b"[[", b"]]", b"1_000", b"0x7f", b"2026-11-25", b",", b".", b"#", b"\\u0000", b"true",
)  # fmt: skip

Place = tuple[Any, Any]
"""A list or table, and an index or key in it."""


def mutated(data: bytes, rng: Random, *, among: list[bytes]) -> bytes:
    """Return a file that differs from one: its parts changed, or mixed with those of another.

    Parameters
    ----------
    data : bytes
        The file.
    rng : Random
        What decides; the same gives the same.
    among : list of bytes
        Files of the same kind, to take parts from.
    """
    if rng.random() < RAW:
        return rng.randbytes(rng.choice((0, 1, 4, 100, 2000)))
    with suppress(ValueError, RecursionError):
        if rng.random() < TREES and data[:1] in (b"{", b"["):
            return _tree(json.loads(data), rng, among)
    changed = data
    for _ in range(rng.choice((1, 1, 2, 4, 8))):
        changed = rng.choice(_CHANGES)(changed, rng, among)[:LONGEST]
    return changed


RAW = 0.02
"""Share of files that are bytes by chance, whatever the reader wants."""

TREES = 0.85
"""Of files that are JSON, the share that stays JSON."""

ESCAPED = 0.5
"""Of those, the share whose signs are escaped: the only way to half a pair of them."""


def _tree(tree: Any, rng: Random, among: list[bytes]) -> bytes:
    for _ in range(rng.choice((1, 1, 1, 2, 3, 6))):
        if place := _place(tree, rng):
            _edit(*place, rng, among)
    text = json.dumps(tree, ensure_ascii=rng.random() < ESCAPED)
    return text.encode("utf-8", errors="replace")[:LONGEST]


DEEPER = 0.95
"""How often a place lies below another, where it can: each part of a file is as likely as its neighbours."""


def _place(tree: Any, rng: Random) -> Place | None:
    place = None
    while tree and isinstance(tree, dict | list) and (place is None or rng.random() < DEEPER):
        key = rng.choice(list(tree)) if isinstance(tree, dict) else rng.randrange(len(tree))
        place, tree = (tree, key), tree[key]
    return place


def _edit(holder: Any, key: Any, rng: Random, among: list[bytes]) -> None:
    """Change one value where it stands."""
    value = holder[key]
    match rng.randrange(8):
        case 0:
            del holder[key]
        case 1 if isinstance(value, int | float) and not isinstance(value, bool):
            holder[key] = value * rng.choice((-1, 0.5, 2, 1.0001, 1e6)) + rng.choice((0, 1, -1, 1e-9))
        case 2 if isinstance(holder, list):
            holder.insert(rng.randrange(len(holder) + 1), json.loads(json.dumps(value)))
        case 3 if isinstance(holder, dict):
            holder[rng.choice((f"{key}x", "id", "schema", "", "points"))] = value
        case 4 if isinstance(value, list):
            holder[key] = value * rng.choice((0, 2, 5))
        case 5:
            other = _place(json.loads(rng.choice(among)), rng) or ([value], 0)
            holder[key] = other[0][other[1]]
        case 6 if isinstance(value, list):
            rng.shuffle(value)
        case _:
            holder[key] = json.loads(json.dumps(rng.choice(NASTY)))


def _cut(data: bytes, rng: Random, _: list[bytes]) -> bytes:
    start = rng.randrange(len(data) + 1)
    return data[:start] + data[start + rng.choice((1, 2, 10, 100, len(data))) :]


def _put(data: bytes, rng: Random, _: list[bytes]) -> bytes:
    at = rng.randrange(len(data) + 1)
    return data[:at] + rng.choice(WORDS) + data[at:]


def _flip(data: bytes, rng: Random, _: list[bytes]) -> bytes:
    if not data:
        return data
    at = rng.randrange(len(data))
    return data[:at] + bytes([data[at] ^ (1 << rng.randrange(8))]) + data[at + 1 :]


def _lines(data: bytes, rng: Random, _: list[bytes]) -> bytes:
    """Drop, double or move a line."""
    lines = data.split(b"\n")
    line = lines.pop(rng.randrange(len(lines)))
    for _again in range(rng.randrange(3)):
        lines.insert(rng.randrange(len(lines) + 1), line)
    return b"\n".join(lines)


def _spliced(data: bytes, rng: Random, among: list[bytes]) -> bytes:
    other = rng.choice(among)
    return data[: rng.randrange(len(data) + 1)] + other[rng.randrange(len(other) + 1) :]


def _digits(data: bytes, rng: Random, _: list[bytes]) -> bytes:
    """Change one number in a text."""
    places = [at for at, sign in enumerate(data) if sign in b"0123456789"]
    if not places:
        return data
    at = rng.choice(places)
    new = rng.choice((b"0", b"9", b"-1", b"1e308", b"nan", b"0.0000001", b"99999999999999999999"))
    return data[:at] + new + data[at + 1 :]


_CHANGES: tuple[Callable[[bytes, Random, list[bytes]], bytes], ...] = (
    _cut, _put, _flip, _lines, _lines, _spliced, _digits, _digits,
)  # fmt: skip
