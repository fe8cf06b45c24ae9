"""Files that are no case at all are refused in words, quickly, and read only as far as needed."""

import json
import time
from pathlib import Path
from typing import Any

import pytest

from zonelib.rules.load import read_case
from zonelib.site.depth import DEEPEST, too_deep
from zonelib.site.faults import FileFault

WALL = {"id": "W1", "length": 3000, "height": 2400, "thickness": 100, "build": "masonry"}


def fault(path: Path) -> str:
    with pytest.raises(FileFault, match=path.name) as caught:
        read_case(path)
    return "; ".join(map(str, caught.value.faults))


def written(folder: Path, name: str, content: str | bytes) -> Path:
    path = folder / name
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def test_a_folder(tmp_path: Path) -> None:
    assert fault(tmp_path) == "the file: found Is a directory; allowed: a file you may read"


def test_a_file_that_is_not_there(tmp_path: Path) -> None:
    found = "No such file or directory"
    assert fault(tmp_path / "none.toml") == f"the file: found {found}; allowed: a file you may read"


@pytest.mark.parametrize("name", ["case.toml", "case.json"])
def test_bytes_that_are_not_utf_8(tmp_path: Path, name: str) -> None:
    path = written(tmp_path, name, 'pack = "uk" # caf\xe9'.encode("latin-1"))
    assert fault(path) == "the file: found bytes that are not UTF-8; allowed: UTF-8 text"


@pytest.mark.parametrize(("name", "text"), [("case.toml", 'pack = "uk"\n'), ("case.json", '{"pack": "uk"}')])
def test_a_byte_order_mark_is_accepted(tmp_path: Path, name: str, text: str) -> None:
    assert read_case(written(tmp_path, name, b"\xef\xbb\xbf" + text.encode())).pack == "uk"


def test_windows_line_ends_are_accepted(tmp_path: Path) -> None:
    assert read_case(written(tmp_path, "case.toml", b'# a note\r\npack = "uk"\r\n')).pack == "uk"


def test_a_file_of_more_than_10_mb_is_refused_unread(tmp_path: Path) -> None:
    path = written(tmp_path, "case.toml", "#" * 10_000_001)
    assert fault(path) == "the file: found more than 10 MB; allowed: a file of at most 10 MB"


@pytest.mark.parametrize("depth", [50, 500, 950, 20_000, 200_000])
@pytest.mark.parametrize(("name", "form"), [("case.json", '{{"pack": {}}}'), ("case.toml", "pack = {}")])
def test_lists_inside_lists(tmp_path: Path, name: str, form: str, depth: int) -> None:
    text = fault(written(tmp_path, name, form.format("[" * depth + "]" * depth)))
    assert "pack: found [[" in text or "lists inside lists, very deep" in text


@pytest.mark.parametrize("digits", [400, 5000])
@pytest.mark.parametrize("name", ["case.toml", "case.json"])
def test_a_number_of_very_many_digits(tmp_path: Path, name: str, digits: int) -> None:
    number = "9" * digits
    text = f'{{"pack": {number}}}' if name.endswith("json") else f"pack = {number}"
    assert "found" in fault(written(tmp_path, name, text))


def test_one_key_many_times_in_a_large_table(tmp_path: Path) -> None:
    keys = ", ".join(f'"k{n}": 0' for n in range(100_000))
    path = written(tmp_path, "case.json", f'{{{keys}, "k99999": 1}}')
    start = time.process_time()
    assert 'the key "k99999" twice' in fault(path)
    assert time.process_time() - start < 10


def test_very_many_things_of_one_kind_are_looked_through_quickly(tmp_path: Path) -> None:
    one = {"kind": "socket", "face": "front", "x": 500, "y": 450, "width": 86, "height": 86}
    accessories = [{"id": f"S{n}", **one} for n in range(5_000)]
    case: dict[str, Any] = {"pack": "uk", "walls": [{**WALL, "accessories": [*accessories, accessories[0]]}]}
    start = time.process_time()
    assert '"S0" more than once' in fault(written(tmp_path, "case.json", json.dumps(case)))
    assert time.process_time() - start < 10


@pytest.mark.parametrize(
    "content", ["null", "7", '"text"', "true", "[]", '{"pack": null}', '{"walls": [null]}', '{"routes": {}}',
                '{"pack": "uk", "readings": []}', '{"pack": "uk", "walls": [[]], "routes": [7]}',
                '{"pack": "uk", "walls": [{"id": {}, "top": {}, "front": 1, "openings": [1]}]}',
                '{"pack": ""}', '{"pack": "../../x.toml"}', '{"pack": "uk\\u0000.toml"}', "\x00", "{"],
)  # fmt: skip
def test_json_that_is_no_case(tmp_path: Path, content: str) -> None:
    with pytest.raises(FileFault, match=r"found .*; allowed: "):
        read_case(written(tmp_path, "case.json", content))


@pytest.mark.parametrize(
    "key", ["a." * 50_000 + "a = 1", "[" + "a." * 300 + "a]", 'x = {"a"' + ' . "a"' * 300 + " = 1}"]
)
def test_a_key_of_very_many_parts_costs_no_time(tmp_path: Path, key: str) -> None:
    start = time.process_time()
    assert "more than 200 dots in one key" in fault(written(tmp_path, "case.toml", key))
    assert time.process_time() - start < 1


def test_dots_that_are_in_no_key_are_read(tmp_path: Path) -> None:
    dots = "\n".join(["# " + "." * 199, "# it's 1.5, 2.5" * 300, "# " + "1.5 = 2.5 " * 300])
    assert read_case(written(tmp_path, "case.toml", f'{dots}\npack = "uk"\n')).pack == "uk"


def test_a_key_of_many_parts_that_still_parses_is_refused_as_too_deep(tmp_path: Path) -> None:
    assert "lists inside lists, very deep" in fault(written(tmp_path, "case.toml", "a." * 40 + "a = 1"))


@pytest.mark.parametrize("deep", [31, 32, 33])
def test_tables_go_as_deep_as_is_said(deep: int) -> None:
    data: dict[str, Any] = {"a": 1}
    for _ in range(deep - 1):
        data = {"a": data}
    assert too_deep(data) == (deep > DEEPEST == 32)


def test_toml_of_more_than_500_kb_is_refused_unread_and_json_is_not(tmp_path: Path) -> None:
    text = fault(written(tmp_path, "case.toml", "#" * 500_001))
    allowed = "at most 500 kB; up to 10 MB as JSON, in a .json file"
    assert text == f"the file: found more than 500 kB of TOML; allowed: {allowed}"
    padded = '{"pack": "uk"' + " " * 600_000 + "}"
    assert read_case(written(tmp_path, "case.json", padded)).pack == "uk"
