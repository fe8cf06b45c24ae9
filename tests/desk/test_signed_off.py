"""From the course file to a class's marks: who checked the rules is said on everything that comes out."""

import json
from html import unescape
from pathlib import Path

from tests.cli.files import run
from tests.desk.course import MODEL, handed_in, make_course, record

SIGNED = "BS 7671:2018+A2:2022, checked against the book by A & B <tutors> on 20 November 2026"
COURSE = """schema = 1
[[packs]]
pack = "uk"
checked = { edition = "BS 7671:2018+A2:2022", by = "A & B <tutors>", on = 2026-11-20 }
"""


def test_mark_sheet_findings_feedback_and_summary_say_who_checked(tmp_path: Path) -> None:
    (tmp_path / "course.toml").write_text(COURSE, encoding="utf-8")
    bundle = make_course(tmp_path)
    inbox, out = tmp_path / "inbox", tmp_path / "out"
    inbox.mkdir()
    answers = handed_in(record(bundle.hash, MODEL))
    (inbox / "one.json").write_text(json.dumps(answers), encoding="utf-8")
    result = run("mark", str(inbox), "--out", str(out))
    assert f"Rules: {SIGNED}." in " ".join(result.stdout.split())
    (page,) = (out / "feedback").glob("*.html")
    for path in (out / "marks.csv", out / "findings.jsonl", page):
        text = path.read_text(encoding="utf-8")
        assert SIGNED in unescape(text), path.name
        assert "not checked" not in text, path.name
    assert "<tutors>" not in page.read_text(encoding="utf-8")
