"""Say where two trainees seem to have handed in one file; who is who is for the tutor to tell."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from heapq import nsmallest

from zonelib.desk.plain import plain
from zonelib.desk.rows import Row

__all__ = ["Flags"]

MOST_NAMED = 5


@dataclass
class Flags:
    """Who handed in what, gathered from all rows, then told on each: a flag, never a judgement.

    It holds short codes only. `given` says for each variant's hash whose it is.
    """

    given: Mapping[str, str] = field(default_factory=dict)
    holders: dict[tuple[str, str], set[str]] = field(default_factory=lambda: defaultdict(set))
    _in_order: dict[tuple[str, str], list[str]] = field(default_factory=dict)

    def gather(self, rows: Iterable[Row]) -> None:
        """Note what the rows of one trainee state."""
        self._in_order.clear()
        for row in rows:
            self.holders["trainee", row.trainee].add(row.trainee)
            for kind, code in _codes(row):
                if code:
                    self.holders[kind, code].add(row.trainee)

    def told(self, row: Row) -> Row:
        """Return a row with the words that the tutor should read."""
        words = [self._shared(row, kind, code) for kind, code in _codes(row)]
        if words[1]:
            del words[2]  # a file with one receipt holds the same answers: that is said already
        owner = self.given.get(row.answered, row.trainee) if row.status == "other-bundle" else row.trainee
        if owner != row.trainee:
            words.append(f"It answers the variant that was given to {plain(owner)}.")
        note = " ".join(filter(None, [row.note, *dict.fromkeys(words)]))
        return replace(row, note=note)

    def _shared(self, row: Row, kind: str, code: str) -> str:
        if kind == "candidate" and code and code != row.trainee and ("trainee", code) in self.holders:
            return f"The file states the candidate number of another trainee, {plain(code)}."
        holders = self.holders.get((kind, code), set())
        others = len(holders) - (row.trainee in holders)
        if not others:
            return ""
        first = [name for name in self._first(kind, code) if name != row.trainee]
        more = f" and {others - MOST_NAMED} more" if others > MOST_NAMED else ""
        return WORDS[kind].format(plain(code), ", ".join(map(plain, first[:MOST_NAMED])) + more)

    def _first(self, kind: str, code: str) -> list[str]:
        """Return as many holders as may be named, found once for all rows: a whole class may share a code."""
        key = kind, code
        if key not in self._in_order:
            self._in_order[key] = nsmallest(MOST_NAMED + 1, self.holders[key], key=plain)
        return self._in_order[key]


WORDS = {
    "candidate": "Candidate number {} also stands in the files of {}.",
    "receipt": "The hand-in file with receipt {} was also handed in by {}.",
    "print": "The same answer, saved at the same second, was also handed in by {1}.",
}


def _codes(row: Row) -> list[tuple[str, str]]:
    return [("candidate", row.candidate), ("receipt", row.receipt), ("print", row.print)]
