"""What docs/variants.md shows is so."""

import contextlib
import io
import re
import tomllib
from pathlib import Path

from zonelib.exercise.model import Band, Draw, Variants

GUIDE = (Path(__file__).resolve().parents[2] / "docs" / "variants.md").read_text(encoding="utf-8")


def samples(language: str) -> list[str]:
    return re.findall(rf"```{language}\n(.*?)```", GUIDE, re.DOTALL)


def test_its_tables_are_tables() -> None:
    table, band = (tomllib.loads(one)["variants"] for one in samples("toml"))
    assert Variants.model_validate(table).draw["height"].most == 2700
    assert Variants.model_validate({**table, **band}).band.traps == 2


def test_its_program_runs() -> None:
    (program,) = samples("python")
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(program, {})  # noqa: S102  our own page, as a reader would run it
    assert re.fullmatch(r"[0-9a-f]{10} C-014\n", said.getvalue())


def test_every_key_is_told() -> None:
    keys = {
        field.alias or name for form in (Draw, Band, Variants) for name, field in form.model_fields.items()
    }
    assert {key for key in keys if not re.search(rf"[`.\[]{key}[`.\] ]", GUIDE)} == set()
