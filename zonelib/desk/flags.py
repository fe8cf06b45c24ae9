"""Say where two trainees seem to have handed in one file; who is who is for the tutor to tell."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

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

    def gather(self, rows: Iterable[Row]) -> None:
        """Note what the rows of one trainee state."""
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
        others = sorted(map(plain, self.holders.get((kind, code), set()) - {row.trainee}))
        if not others:
            return ""
        more = f" and {len(others) - MOST_NAMED} more" if len(others) > MOST_NAMED else ""
        return WORDS[kind].format(plain(code), ", ".join(others[:MOST_NAMED]) + more)


WORDS = {
    "candidate": "Candidate number {} also stands in the files of {}.",
    "receipt": "The hand-in file with receipt {} was also handed in by {}.",
    "print": "The same answer, saved at the same second, was also handed in by {1}.",
}


def _codes(row: Row) -> list[tuple[str, str]]:
    return [("candidate", row.candidate), ("receipt", row.receipt), ("print", row.print)]
