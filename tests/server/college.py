"""A college's set-up: two servers behind Debian's nginx with HTTPS, on one PostgreSQL."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.server.front import Front, fronted
from tests.server.processes import Process, cluster, free_port
from tests.server.room import laid_out
from tests.server.sitters import Sitter, Wire
from zonelib.desk.server.making import Plan

__all__ = ["College", "college_in"]


@dataclass
class College:
    """Servers, what stands before them, and where all is stored."""

    folder: Path
    database: str
    front: Front
    servers: tuple[Process, Process]
    codes: dict[str, str]

    @property
    def address(self) -> str:
        """What one types into a browser."""
        return f"https://127.0.0.1:{self.front.port}"

    def sitter(self, number: str) -> Sitter:
        return Sitter(number, self.codes[number], Wire(self.front.port, tls=self.front.tls))


@contextmanager
def college_in(folder: Path, made: Plan) -> Iterator[College]:
    """Run a college with an open quiz, for as long as the block."""
    for name in ("course", "nginx"):
        (folder / name).mkdir()
    with cluster() as database:
        codes = laid_out(folder / "course", made, database=database)
        more = ("--behind-proxy", "--database", database)
        one, two = (Process(folder / "course", free_port(), *more) for _ in range(2))
        try:
            with ThreadPoolExecutor(2) as both:
                list(both.map(Process.start, (one, two)))
            with fronted(folder / "nginx", [one.port, two.port]) as front:
                yield College(folder / "course", database, front, (one, two), codes)
        finally:
            one.kill()
            two.kill()
