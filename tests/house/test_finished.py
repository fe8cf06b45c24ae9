"""Nothing is left half done, and no test is one that cannot fail."""

import ast
import re

import pytest

from tests.house.files import ROOT, name_of, texts, trees

# Joined from two halves, so that this file does not hold what it looks for.
LEFT = re.compile(r"\bTO" + r"DO\b|\bFIX" + r"ME\b|\bXX" + r"X\b|NotImpl" + r"emented")
PASSED_OVER = {"pytest." + n for n in ("skip", "mark.skip", "mark.skipif", "mark.xfail", "importorskip")}
Function = ast.FunctionDef | ast.AsyncFunctionDef
CHECKS = ("assert", "check", "expect", "same", "pytest.raises", "pytest.warns")


def is_empty(node: Function) -> bool:
    rest = node.body[1:] if ast.get_docstring(node) else node.body
    return all(
        isinstance(line, ast.Pass)
        or (isinstance(line, ast.Expr) and isinstance(line.value, ast.Constant) and line.value.value is ...)
        for line in rest
    )


def functions(tree: ast.Module) -> list[Function]:
    classes = [node for node in ast.walk(tree) if isinstance(node, ast.ClassDef)]
    protocols = [node for node in classes if "Protocol" in map(name_of, node.bases)]
    shapes = {id(inner) for protocol in protocols for inner in ast.walk(protocol)}
    return [node for node in ast.walk(tree) if isinstance(node, Function) and id(node) not in shapes]


def bodiless(node: Function) -> bool:
    """Tell whether a decorator takes the place of the body: overload, group of commands, abstract method."""
    return any(
        name_of(mark).endswith(("overload", ".group", "abstractmethod")) for mark in node.decorator_list
    )


def checks_something(node: Function, helpers: set[str]) -> bool:
    """Tell whether a function asserts, or calls one that does."""

    def is_check(inner: ast.AST) -> bool:
        if isinstance(inner, ast.Call):
            name = name_of(inner.func)
            return name in helpers or name.startswith(CHECKS) or name.split(".")[-1].startswith(CHECKS)
        fails = isinstance(inner, ast.Attribute) and name_of(inner) == "pytest.fail"
        return fails or isinstance(inner, ast.Assert)

    return any(is_check(inner) for inner in ast.walk(node))


def idle_tests(tree: ast.Module) -> list[Function]:
    """Return the tests of a file that check nothing, neither themselves nor by a helper of the file."""
    found, helpers = functions(tree), set[str]()
    while more := {node.name for node in found if checks_something(node, helpers)} - helpers:
        helpers |= more
    return [node for node in found if node.name.startswith("test_") and node.name not in helpers]


def test_no_line_is_left_for_later() -> None:
    left = [
        f"{path.relative_to(ROOT)}: {match.group()}"
        for path in texts(".py", ".js", ".toml", ".md", ".css", "")
        for match in LEFT.finditer(path.read_text(encoding="utf-8"))
    ]
    assert left == []


def test_no_function_is_a_stub() -> None:
    stubs = [
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"
        for path, tree in trees("zonelib")
        for node in functions(tree)
        if is_empty(node) and not bodiless(node)
    ]
    assert stubs == []


def test_no_test_is_passed_over() -> None:
    found = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path, tree in trees("tests")
        for node in ast.walk(tree)
        if isinstance(node, ast.Attribute) and name_of(node) in PASSED_OVER
    ]
    assert found == []


def test_every_expected_error_names_its_words() -> None:
    bare = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path, tree in trees("tests")
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
        and name_of(node.func) == "pytest.raises"
        and "match" not in [keyword.arg for keyword in node.keywords]
    ]
    assert bare == []


def test_every_test_checks_something() -> None:
    idle = [
        f"{path.relative_to(ROOT)}:{node.lineno} {node.name}"
        for path, tree in trees("tests")
        for node in idle_tests(tree)
    ]
    assert idle == []


@pytest.mark.parametrize(
    ("code", "empty"),
    [
        ("def f(): ...", True),
        ('def f():\n  "d"\n  pass', True),
        ('def f(): "d"', True),
        ("def f(): return 1", False),
    ],
)
def test_a_stub_is_known_when_seen(code: str, empty: bool) -> None:
    (node,) = functions(ast.parse(code))
    assert is_empty(node) is empty


def test_an_idle_test_is_known_when_seen() -> None:
    code = "def test_a(): f()\ndef test_b(): assert f()\ndef test_c(): holds()\ndef holds(): assert f()"
    assert [node.name for node in idle_tests(ast.parse(code))] == ["test_a"]
