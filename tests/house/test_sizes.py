"""Files and functions stay small enough to be read in one go (DEVELOPERS, "Style")."""

import ast
from statistics import median, quantiles

from tests.house.files import ROOT, texts, trees


def body_lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Count the lines of a body, its docstring left out."""
    body = node.body[1:] if ast.get_docstring(node) else node.body
    last = body[-1].end_lineno if body else None
    return (last or 0) - body[0].lineno + 1 if body else 0


def bodies() -> list[int]:
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef)
    return [body_lines(n) for _, tree in trees("zonelib") for n in ast.walk(tree) if isinstance(n, kinds)]


def file_lengths() -> dict[str, int]:
    return {
        str(path.relative_to(ROOT)): path.read_text(encoding="utf-8").count("\n")
        for path in texts(".py", ".js", ".css")
        if path.relative_to(ROOT).parts[0] == "zonelib"
    }


def test_no_file_is_over_500_lines() -> None:
    assert {name: n for name, n in file_lengths().items() if n > 500} == {}


def test_half_of_the_files_are_under_120_lines() -> None:
    assert median(file_lengths().values()) < 120


def test_half_of_the_bodies_are_under_8_lines_and_nine_in_ten_under_25() -> None:
    assert median(bodies()) < 8
    assert quantiles(bodies(), n=10)[-1] < 25


def test_a_docstring_is_no_part_of_a_body() -> None:
    (node,) = ast.parse('def f():\n    """One\n\n    two."""\n    a = 1\n    return a\n').body
    assert isinstance(node, ast.FunctionDef)
    assert body_lines(node) == 2
