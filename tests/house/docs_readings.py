"""Write docs/readings.md from the packs: `python -m tests.house.docs_readings`."""

from tests.house.files import ROOT
from zonelib.rules.pack import Pack, load_pack, pack_names

PAGE = ROOT / "docs" / "readings.md"
HEAD = """# Readings

This page is made by `python -m tests.house.docs_readings` from the packs. A test fails while it is older.

A clause is a sentence, and the trade does not always read it in one way. zonelib never hides such a choice.
Each has a name, a question, a reason, and a value that a course may set:
[your course](../README.md#your-course).
A verdict names the readings it rests on. `zonelib remark` shows whose marks would change under another.

> **Safety.** Teaching aid. Local codes and a licensed electrician decide.
> One who lays a cable takes the narrow value. One who drills must reckon with every value:
> [the two-way caution](scope.md#the-two-way-caution).
"""
TOP = "| name | question | values, the default first | narrow | why it is a choice |"
ROW = "| `{name}` | {question} | {values} | `{narrow}` | {reason} |\n"


def page() -> str:
    """Return the whole page."""
    return HEAD + "".join(_section(load_pack(name)) for name in pack_names() if load_pack(name).readings)


def _section(pack: Pack) -> str:
    head = f"\n## `{pack.id}`: {pack.edition}\n\n"
    return f"{head}{TOP}\n|---|---|---|---|---|\n" + "".join(
        ROW.format(
            name=name,
            question=one.question,
            values=", ".join(f"`{value}`" for value in one.values),
            narrow=one.narrow,
            reason=one.reason,
        )
        for name, one in pack.readings.items()
    )


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
