"""The repository names no machine, and no address that a reader's computer would call."""

import re

import pytest

from tests.house.files import ROOT, texts

# Joined from two halves, so that this file does not hold what it looks for.
MACHINE = re.compile(r"(?<![\w.])/(?:ro" + r"ot|wo" + r"rk|ho" + r"me/\w+)/|C:\\Us" + "ers")
ADDRESS = re.compile(r"https?://([\w.-]+)")
# Names of formats, which nothing fetches, and the reader's own machine.
FORMATS = {"www.w3.org", "json-schema.org", "127.0.0.1", "localhost", "purl.org"}


def strangers(text: str) -> list[str]:
    return MACHINE.findall(text) + [host for host in ADDRESS.findall(text) if host not in FORMATS]


def test_no_file_names_a_machine_or_a_host() -> None:
    found = {
        str(path.relative_to(ROOT)): names
        for path in texts()
        if (names := strangers(path.read_text(encoding="utf-8", errors="replace")))
    }
    assert found == {}


@pytest.mark.parametrize("text", ["see /ho" + "me/ann/x", "get https" + "://files.example.com/a.whl"])
def test_a_machine_or_host_is_known_when_seen(text: str) -> None:
    assert strangers(text)


def test_constraints_hold_versions_only() -> None:
    lines = (ROOT / "constraints.txt").read_text().splitlines()
    assert len(lines) > 50
    assert [line for line in lines if not re.fullmatch(r"[A-Za-z0-9._-]+==[0-9][\w.!+]*", line)] == []
