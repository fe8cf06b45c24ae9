"""What the cells of a lesson call."""

from collections.abc import Collection
from functools import cached_property
from typing import Any

from zonelib.rules.course import course_for
from zonelib.rules.engine import judge
from zonelib.rules.load import case_and_pack
from zonelib.rules.pack import Citation, Pack, load_pack
from zonelib.rules.rulebook import Rulebook
from zonelib.rules.zones import zones
from zonelib.sheet.files import notebook_folder
from zonelib.sheet.glossary import glossary
from zonelib.sheet.lesson.data import LessonFile, read_lesson
from zonelib.sheet.lesson.live import LiveBox
from zonelib.sheet.lesson.page import picture, say
from zonelib.sheet.lesson.question import show_question
from zonelib.sheet.lesson.view import View, scene_of, shown_case
from zonelib.sheet.trouble import SheetTrouble, plainly
from zonelib.site.faults import FileFault
from zonelib.site.model import Case, Side

__all__ = ["Lesson"]


class Lesson:
    """A lesson's notebook: each of its cells calls one method.

    Parameters
    ----------
    name : str
        Of its file ``parts/<name>.toml`` beside the notebook.

    Raises
    ------
    SheetTrouble
        If there is no such file, or it has faults.
    """

    def __init__(self, name: str) -> None:
        self.name = name
        file = f"parts/{name}.toml"
        self._folder = notebook_folder(holding=file)
        try:
            self._file: LessonFile = read_lesson(self._folder / file)
        except FileFault as fault:
            raise plainly(fault) from fault

    def ask(self, question: str) -> None:
        """Show a question that one click answers."""
        show_question(_named(self._file.questions, question, "question"))

    def live(self, name: str) -> None:
        """Show a picture to change."""
        live = _named(self._file.live, name, "live picture")
        try:
            LiveBox(live, self._folder / (live.case or self._file.case), name=f"l{self.name}-{name}").show()
        except FileFault as fault:
            raise plainly(fault) from fault

    def look(
        self, view: str = "front", *, routes: Collection[str] = (), wall: str = "", zones: bool = True,
        hidden: bool = True, case: str = "",
    ) -> None:  # fmt: skip
        """Show a picture of the lesson's case; cables are judged where zones are drawn.

        Parameters
        ----------
        view : str
            ``front``, ``rear``, ``section``, ``room`` or ``joist``.
        routes : collection of str
            Ids of the cables to draw. With one, only the zones that serve it are filled.
        wall : str
            Id of the wall or room, if not the first.
        zones, hidden : bool
            Whether zones are drawn, and what cannot be seen from this face.
        case : str
            Another case file.
        """
        what, pack = self._case(case)
        wanted = View(view, wall, routes, zones=zones, hidden=hidden)
        if routes:
            what = shown_case(what, wanted)
        picture(scene_of(what, pack, wanted, verdict=judge(what, pack) if routes and zones else None))

    def explain(self, route: str = "", *, view: str = "front", wall: str = "", case: str = "") -> None:
        """Show a cable, or a joist, with what fails on it, and say why."""
        whole, pack = self._case(case)
        wanted = View(view, wall, [route] if route else ())
        what = shown_case(whole, wanted)
        verdict = judge(what, pack)
        picture(scene_of(what, pack, wanted, verdict=verdict))
        told = [f"{n}. {one.text}" for n, one in enumerate(verdict.failures, 1)]
        say("\n\n".join(told or ["Every rule is met."]))

    def zones_in_words(self, face: Side = "front", *, case: str = "") -> None:
        """Say where each zone of a face lies, for a cable joined to every accessory."""
        what, pack = self._case(case)
        found = zones(what.walls[0], face, Rulebook(pack, what.readings), joined=None)
        say("\n".join(dict.fromkeys(f"- {one.source}: {one.reason} ({one.clause})" for one in found)))

    def words(self, *terms: str) -> None:
        """Explain trade terms where they first stand."""
        say("\n".join(f"> **{glossary()[term].term}** – {glossary()[term].words}\n>" for term in terms))

    def coverings(self) -> None:
        """Show which coverings count and which do not, with the reason for each."""
        rows = [
            f"| {one.words} | {'yes' if one.counts else 'no'} | {one.why} |"
            for one in self._pack.protections.values()
        ]
        say("\n".join(["| covering | counts | why |", "|---|---|---|", *rows]))

    def safety(self) -> None:
        """Show the safety words of the country, in their one box."""
        words = self._pack.safety
        lines = [
            f"**Safety.** {words.aid} {words.lay}",
            "",
            "Before you drill into a real wall:",
            "",
            *(f"- {line}" for line in words.drill),
        ]
        say("\n".join(f"> {line}".rstrip() for line in lines))

    def clauses(self, *packs: str) -> None:
        """Show the clauses met, in our own words, and how each was checked.

        Parameters
        ----------
        *packs : str
            Other packs whose every clause is shown instead.
        """
        for pack in [self._signed(load_pack(name)) for name in packs]:
            _cite(pack, tuple(pack.citations))
        if not packs:
            _cite(self._pack, self._file.clauses)

    @cached_property
    def _pack(self) -> Pack:
        return self._case("")[1]

    def _signed(self, pack: Pack) -> Pack:
        course = course_for(self._folder)
        return course.signed(pack) if course else pack

    def _case(self, file: str) -> tuple[Case, Pack]:
        """Read a case file, its faults told without a traceback."""
        try:
            return case_and_pack(self._folder / (file or self._file.case))
        except FileFault as fault:
            raise plainly(fault) from fault


def _named(those: dict[str, Any], name: str, kind: str) -> Any:
    if name not in those:
        raise SheetTrouble(f"This lesson has no {kind} {name}. It has: {', '.join(those)}.")
    return those[name]


def _cite(pack: Pack, names: Collection[str]) -> None:
    rows = [_clause(pack.citations[name]) for name in names]
    say("\n".join([*rows, "", f"Edition: {pack.stated_edition}."]))


def _clause(citation: Citation) -> str:
    checked = f"How we know: {citation.checked}."
    return f"- **{citation.document}, {citation.clause}.** {citation.about} {checked}"
