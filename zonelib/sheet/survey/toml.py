"""Write data as TOML, in the form that docs/case-file.md tells: a person may go on in any editor."""

import json
from collections.abc import Iterator
from typing import Any

__all__ = ["as_toml"]


def as_toml(data: dict[str, Any], *, above: str = "") -> str:
    """Return tables, lists of tables and values as TOML, values first.

    >>> print(as_toml({"rooms": [{"id": "bed", "plan": [[0, 0], [0, 3000]]}]}))
    [[rooms]]
    id = "bed"
    plan = [[0, 0], [0, 3000]]
    """
    return "\n".join(_lines(data, above)).strip("\n")


def _lines(data: dict[str, Any], above: str) -> Iterator[str]:
    yield from (f"{key} = {_value(one)}" for key, one in data.items() if not _is_table(one))
    for key, one in data.items():
        name = f"{above}{key}"
        if _is_table(one):
            for table in one if isinstance(one, list) else [one]:
                heading = f"[[{name}]]" if isinstance(one, list) else f"[{name}]"
                yield from ("", heading, *_lines(table, f"{name}."))


def _is_table(value: Any) -> bool:
    return isinstance(value, dict) or (isinstance(value, list) and bool(value) and isinstance(value[0], dict))


def _value(value: Any) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list | tuple):
        return f"[{', '.join(map(_value, value))}]"
    if isinstance(value, dict):
        return f"{{ {', '.join(f'{key} = {_value(one)}' for key, one in value.items())} }}"
    if isinstance(value, str):
        return _text(value)
    return f"{value:.12g}" if isinstance(value, float) else str(value)


def _text(value: str) -> str:
    """Return a text in quotes, over several lines where it has them: a person is to read and change it."""
    plain = all(one.isprintable() or one == "\n" for one in value) and "\\" not in value and '"' not in value
    return f'"""\n{value}"""' if "\n" in value and plain else json.dumps(value, ensure_ascii=False)
