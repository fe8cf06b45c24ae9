"""The files of the repository as the house tests see them: written by hand, not made by a run."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PARTS = ["zonelib", "tests", "lessons", "solutions", "exercises", "docs", ".ci"]
TEXT = {".py", ".js", ".toml", ".md", ".ipynb", ".json", ".css", ".html", ".svg", ".txt", ""}
MADE = {"__pycache__", "node_modules", ".ipynb_checkpoints", "answers"}


def texts(*suffixes: str) -> list[Path]:
    """Return the text files of the repository, all or those with one of the suffixes."""
    found = [path for path in ROOT.iterdir() if path.is_file()]
    for part in PARTS:
        found += [path for path in (ROOT / part).rglob("*") if path.is_file()]
    wanted = set(suffixes) or TEXT
    return sorted(p for p in found if p.suffix in wanted and not MADE & set(p.relative_to(ROOT).parts))


def trees(folder: str) -> Iterator[tuple[Path, ast.Module]]:
    """Yield each Python file under a folder of the repository with its syntax tree."""
    for path in texts(".py"):
        if path.relative_to(ROOT).parts[0] == folder:
            yield path, ast.parse(path.read_text(encoding="utf-8"), filename=str(path))


def name_of(node: ast.expr) -> str:
    """Return the dotted name of an expression, or "" where it has none."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        return f"{name_of(node.value)}.{node.attr}"
    return name_of(node.func) if isinstance(node, ast.Call) else ""
