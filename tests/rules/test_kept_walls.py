"""A wall that was judged lately is there already, and never that of other rules."""

from concurrent.futures import ThreadPoolExecutor

from zonelib.rules.pack import load_pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.surface import surface_of
from zonelib.site.model import Wall

STATED = {"id": "W1", "length": 3600, "height": 2400, "thickness": 100, "build": "timber-stud"}


def wall(**changes: object) -> Wall:
    return Wall.model_validate({**STATED, **changes})


def test_an_equal_wall_is_prepared_once() -> None:
    book = Rulebook(load_pack("uk"))
    assert surface_of(wall(), book) is surface_of(wall(), Rulebook(book.pack))
    assert surface_of(wall(), book) is not surface_of(wall(length=3601), book)


def test_other_rules_prepare_it_anew() -> None:
    pack = load_pack("uk")
    first = surface_of(wall(), Rulebook(pack))
    others = (
        Rulebook(pack.model_copy()),
        Rulebook(pack, {"borrow_zones": "yes"}),
        Rulebook(pack, widest=True),
    )
    for book in others:
        other = surface_of(wall(), book)
        assert other is not first
        assert other.book == book


def test_no_two_threads_share_one() -> None:
    book = Rulebook(load_pack("uk"))
    with ThreadPoolExecutor(1) as pool:
        there = pool.submit(surface_of, wall(), book).result()
    assert there is not surface_of(wall(), book)
    assert there.wall == wall()
