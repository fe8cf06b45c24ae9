"""Write docs/api.md, which mkdocstrings fills: `python -m tests.house.docs_api`."""

import importlib
import inspect

from tests.house.files import ROOT

PAGE = ROOT / "docs" / "api.md"
HEAD = """# Python

This page is made by `python -m tests.house.docs_api`.
What it says of each name is the name's own docstring. All lengths are in mm.

`import zonelib` gives what most scripts need:
`read_case`, `load_pack`, `judge`, `Case`, `Pack`, `Verdict`, `Finding`, `Place`, `FileFault`, `Fault`.

```python
import zonelib

case = zonelib.read_case("docs/examples/bedroom-wall.toml")
for finding in zonelib.judge(case).failures:
    print(finding.subject, finding.clause, finding.text)
```
"""
PARTS = {
    "What is there": ["zonelib.site.model", "zonelib.site.geometry", "zonelib.site.faults"],
    "Rules": [
        "zonelib.rules.pack", "zonelib.rules.load", "zonelib.rules.course", "zonelib.rules.zones",
        "zonelib.rules.engine", "zonelib.rules.finding",
    ],
    "Exercises": ["zonelib.exercise"],
    "The coach": [
        "zonelib.coach.solver", "zonelib.coach.remedies.offer", "zonelib.coach.remedies.remedy",
        "zonelib.coach.diagnosis.diagnose", "zonelib.coach.diagnosis.misconception",
        "zonelib.coach.mastery.choosing", "zonelib.coach.variants",
    ],
    "Drawings": ["zonelib.draw"],
}  # fmt: skip


def names_of(module: str) -> list[str]:
    """Return the public names of a module that carry words of their own."""
    there = importlib.import_module(module)
    return [
        name
        for name in there.__all__
        if (inspect.isclass(one := getattr(there, name)) or inspect.isfunction(one)) and one.__doc__
    ]


MODULES = {module: names_of(module) for modules in PARTS.values() for module in modules}


def page() -> str:
    """Return the whole page."""
    lines = [HEAD]
    for part, modules in PARTS.items():
        lines.append(f"## {part}\n")
        lines += [f"::: {module}.{name}\n" for module in modules for name in MODULES[module]]
    return "\n".join(lines)


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8", newline="\n")
