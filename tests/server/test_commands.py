"""The commands of a quiz, as a tutor gives them."""

import re
from pathlib import Path

import pytest
import sqlalchemy as sa
from click.testing import CliRunner, Result
from pypdf import PdfReader

from tests.server.room import ROUTE, Client, Hands, served
from zonelib.cli.quiz import command
from zonelib.coach.variants import variant_of
from zonelib.coach.variants.vary import family_of
from zonelib.desk.server.candidates import extra_of, read_candidates, with_extra
from zonelib.desk.server.events import chain_of_sitting
from zonelib.desk.server.store import open_store
from zonelib.desk.server.tables import events, seat_items, seats
from zonelib.exercise import bank_path, read_exercise
from zonelib.sheet.kinds import pad_for
from zonelib.site.faults import FileFault

CLASS = "candidate,name,extra\nC-001,Ash,\nC-002,Birch,25%\nC-003,,10\n"


def quiz(folder: Path, *arguments: str) -> Result:
    return CliRunner().invoke(command, [*arguments, "--in", str(folder)])


def made(folder: Path, *more: str, name: str = "autumn") -> dict[str, str]:
    """Make a quiz; return the codes as the slips tell them."""
    (folder / "class.csv").write_text(CLASS, encoding="utf-8")
    slips = folder / "slips.pdf"
    files = ("--candidates", str(folder / "class.csv"), "--slips", str(slips))
    result = quiz(folder, "new", name, "bedroom-drop", *files, *more)
    assert result.exit_code == 0, result.output
    text = "\n".join(page.extract_text() for page in PdfReader(slips).pages)
    return dict(re.findall(r"(C-\d{3}).*?([2-9B-Z]{4}-[2-9B-Z]{4})", text, re.DOTALL))


def test_a_quiz_from_the_list_to_the_marks(tmp_path: Path) -> None:
    codes = made(tmp_path, "--minutes", "30", "--rooms", "1")
    assert sorted(codes) == ["C-001", "C-002", "C-003"]
    assert quiz(tmp_path, "open", "autumn").output.startswith("autumn is open.")
    store, hands = open_store(tmp_path), Hands()
    hands.date += 10_000_000
    with served(store, hands) as (_, port):
        seat = Client(port).enter(codes["C-001"])
        seat.post("/api/start")
        assert seat.save("bedroom-drop", 1, ROUTE).status == 200
    out = tmp_path / "marked"
    early = quiz(tmp_path, "mark", "autumn", "--out", str(out))
    assert early.exit_code == 1
    assert "autumn is open. Close it first: zonelib quiz close autumn" in early.output
    seal = quiz(tmp_path, "close", "autumn").output.split()[-1]
    assert quiz(tmp_path, "mark", "autumn", "--out", str(out)).exit_code == 0
    lines = (out / "marks.csv").read_text(encoding="utf-8").splitlines()
    assert [line.split(",")[:3] for line in lines[1:]] == [
        [f"C-00{n}", "autumn", "bedroom-drop"] for n in (1, 2, 3)
    ]
    assert float(lines[1].split(",")[3]) > 0
    assert (out / "findings.jsonl").stat().st_size
    assert quiz(tmp_path, "release", "autumn").exit_code == 0
    verified = quiz(tmp_path, "verify", "autumn", "--seal", seal)
    assert verified.exit_code == 0, verified.output
    assert "The log of autumn holds: " in verified.output
    with store.writing() as connection:
        row = (events.c.chain == chain_of_sitting("autumn")) & (events.c.number == 2)
        connection.execute(events.update().where(row).values(actor="nobody"))
    store.close()
    broken = quiz(tmp_path, "verify", "autumn")
    assert broken.exit_code == 1
    assert "sitting:autumn, line 2: it was changed after it was written" in broken.output


def test_slips_tell_number_name_code_and_time(tmp_path: Path) -> None:
    made(
        tmp_path,
        "--minutes",
        "40",
        "--rooms",
        "1",
        "--address",
        "exercises.test",
        "--title",
        "Autumn, part 1",
    )
    text = PdfReader(tmp_path / "slips.pdf").pages[0].extract_text()
    assert all(
        part in text for part in ("Autumn, part 1", "Birch", "Open exercises.test", "Time: 50 minutes.")
    )
    assert PdfReader(tmp_path / "slips.pdf").pages[0].mediabox.width == pytest.approx(595, abs=1)


def test_rooms_differ_between_candidates_and_marking_knows_each(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    numbers = iter(range(1, 4))
    monkeypatch.setattr("secrets.randbits", lambda _bits: next(numbers))
    seeds = {variant_of(seed): seed for seed in range(1, 4)}
    codes = made(tmp_path, "--minutes", "30", "--rooms", "3")
    quiz(tmp_path, "open", "autumn")
    store, hands = open_store(tmp_path), Hands()
    hands.date += 10_000_000
    family = family_of(read_exercise(bank_path("bedroom-drop")))
    with store.reading() as connection:
        given = dict(
            connection.execute(sa.select(seats.c.candidate, seat_items.c.variant).join(seat_items)).all()
        )
    with served(store, hands) as (_, port):
        for number, code in codes.items():
            room = family.room(seeds[given[number] or ""])
            seat = Client(port).enter(code)
            seat.post("/api/start")
            model = room.bundle.kind.answer.model_validate(room.exercise.model).model_dump(mode="json")
            assert seat.save("bedroom-drop", 1, pad_for(room.bundle).held(room.bundle, model)).status == 200
            assert not any((given[number] or "none").encode() in one for one in seat.seen)
    store.close()
    quiz(tmp_path, "close", "autumn")
    assert quiz(tmp_path, "mark", "autumn", "--out", str(tmp_path / "marked")).exit_code == 0
    bundles = {path.name for path in (tmp_path / "marked" / "handed-in").rglob("*.bundle.json")}
    assert len(bundles) == min(len(codes), 3)
    lines = (tmp_path / "marked" / "marks.csv").read_text(encoding="utf-8").splitlines()
    assert [line.split(",")[3:5] for line in lines[1:]] == [["10.0", "10.0"]] * 3


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (
            ("new", "Big Quiz", "bedroom-drop", "--minutes", "5"),
            'Found the name "Big Quiz". Use 1 to 40 small',
        ),
        (("new", "q", "bedroom-drop"), "A quiz needs a time: give --minutes 30, or --as homework for none."),
        (("new", "q", "bedroom-drop", "--as", "homework", "--minutes", "5"), "A homework has no time limit"),
    ],
)
def test_what_does_not_fit_is_told(tmp_path: Path, arguments: tuple[str, ...], words: str) -> None:
    (tmp_path / "class.csv").write_text(CLASS, encoding="utf-8")
    result = quiz(tmp_path, *arguments, "--candidates", str(tmp_path / "class.csv"))
    assert result.exit_code == 1
    assert words in result.output


def test_a_name_is_given_once(tmp_path: Path) -> None:
    made(tmp_path, "--minutes", "5", "--rooms", "1")
    files = ("--candidates", str(tmp_path / "class.csv"), "--minutes", "5", "--rooms", "1")
    again = quiz(tmp_path, "new", "autumn", "bedroom-drop", *files)
    assert "There is a sitting of the name autumn already. Choose another." in again.output


def test_a_sitting_that_is_not_there_is_told(tmp_path: Path) -> None:
    for act in ("open", "close", "release", "verify"):
        assert "There is no sitting of the name spring." in quiz(tmp_path, act, "spring").output


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "line 1: found nothing; allowed: a column candidate; also extra, name"),
        ("candidate,age\nC-1,9\n", "line 1: found a column age; allowed: candidate, extra, name"),
        ("candidate\nC 1\n", 'line 2: found candidate "C 1"; allowed: 1 to 40 letters'),
        ("candidate\nC-1\nC-1\n", "line 3: found C-1 a second time; allowed: each candidate once"),
        ("candidate,extra\nC-1,lots\n", 'line 2: found extra "lots"; allowed: minutes such as 10'),
        ("candidate,extra\nC-1,601\n", 'line 2: found extra "601"; allowed: minutes such as 10'),
    ],
)
def test_a_list_that_cannot_be_used_is_told(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "class.csv"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(FileFault, match=re.escape(words)):
        read_candidates(path)


def test_extra_time_is_minutes_or_a_share(tmp_path: Path) -> None:
    path = tmp_path / "class.csv"
    path.write_text("\ufeffcandidate,extra\nC-1,10\nC-2,50%\nC-3,\n", encoding="utf-8")
    listed = with_extra(read_candidates(path), ["C-3=5"])
    assert [extra_of(one.extra, 3600) for one in listed] == [600, 1800, 300]
    with pytest.raises(FileFault, match='found "C-9=5"; allowed: C-014=10 or C-014=25%'):
        with_extra(listed, ["C-9=5"])


def test_a_lost_slip_is_made_good_by_a_new_code(tmp_path: Path) -> None:
    codes = made(tmp_path, "--minutes", "5", "--rooms", "1")
    told = quiz(tmp_path, "code", "autumn", "C-002").output
    code = re.search(r"C-002: ([0-9A-Z]{4}-[0-9A-Z]{4})\. The code on the old slip no longer works\.", told)
    assert code
    store = open_store(tmp_path)
    with served(store, Hands()) as (_, port):
        assert Client(port).post("/api/sign-in", code=codes["C-002"]).data["error"] == "code-unknown"
        assert Client(port).post("/api/sign-in", code=code[1]).data["state"] == "in"
    store.close()
    assert "There is no such seat in this sitting." in quiz(tmp_path, "code", "autumn", "C-9").output
