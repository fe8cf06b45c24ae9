"""Case files written for a test, and commands run in this process."""

import json
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

from tests.rules.cases import one_route
from zonelib.cli import group

UP = [(1200, 450), (1200, 2400)]
SLANT = [(1200, 450), (2400, 2100)]
PASSING, FAILING = one_route(UP), one_route(SLANT, rcd=None)


def written(folder: Path, name: str, data: Any) -> str:
    path = folder / name
    path.write_text(data if isinstance(data, str) else json.dumps(data), encoding="utf-8")
    return str(path)


def run(*arguments: str) -> Result:
    """Run a command; its columns are a terminal's."""
    return CliRunner(env={"COLUMNS": "96"}).invoke(group, list(arguments))


def lines(result: Result) -> list[dict[str, Any]]:
    return [json.loads(line) for line in result.stdout.splitlines()]
