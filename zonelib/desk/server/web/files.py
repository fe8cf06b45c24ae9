"""Pages, scripts and styles: read once from the package, sent as they are."""

import gzip
import hashlib
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from zonelib.desk.server.refusal import Refusal
from zonelib.desk.server.web.base import Base, Refused
from zonelib.sheet.code import pad_code, pad_style

__all__ = ["ROUTES"]

STATIC = Path(__file__).parent.parent / "static"
SHEET = Path(__file__).parents[3] / "sheet" / "static"
KINDS = {".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
PAGES = {"": "index.html", "sit": "sit.html", "desk": "desk.html"}

MADE: dict[str, Callable[[], str]] = {
    "pad.js": pad_code,
    "pad.css": pad_style,
    "panel.js": lambda: (SHEET / "panel.js").read_text(encoding="utf-8"),
    "panel.css": lambda: (SHEET / "panel.css").read_text(encoding="utf-8"),
    "clock.js": lambda: (SHEET / "clock.js").read_text(encoding="utf-8"),
}
"""Pad, panel and clock are those of the notebooks, to the byte."""


@dataclass(frozen=True)
class _File:
    kind: str
    body: bytes
    packed: bytes
    tag: str


@cache
def _file(name: str) -> _File | None:
    path = STATIC / name
    if name in MADE:
        body = MADE[name]().encode()
    elif path.suffix in KINDS and path.is_file():
        body = path.read_bytes()
    else:
        return None
    tag = f'"{hashlib.sha256(body).hexdigest()[:24]}"'
    return _File(KINDS[path.suffix], body, gzip.compress(body, mtime=0), tag)


class _Sender(Base):
    def send(self, name: str) -> None:
        found = _file(name)
        if found is None:
            raise Refused(Refusal(404, "nothing-here"))
        self.set_header("Content-Type", f"{found.kind}; charset=utf-8")
        self.set_header("Cache-Control", "no-cache")
        self.set_header("Vary", "Accept-Encoding")
        self.set_header("Etag", found.tag)
        if self.check_etag_header():
            self.set_status(304)
            self.finish()
            return
        packed = "gzip" in self.request.headers.get("Accept-Encoding", "")
        if packed:
            self.set_header("Content-Encoding", "gzip")
        self.finish(found.packed if packed else found.body)


class Page(_Sender):
    """A page, by its short address."""

    def get(self, name: str) -> None:
        """Send it."""
        self.send(PAGES[name])


class Static(_Sender):
    """``GET /static/<name>``: a script or style."""

    def get(self, name: str) -> None:
        """Send it."""
        self.send(name)


class Nothing(Base):
    """Any other address."""

    def prepare(self) -> None:
        """Tell that there is nothing."""
        raise Refused(Refusal(404, "nothing-here"))


ROUTES = [
    (r"/()", Page),
    (r"/(sit|desk)", Page),
    (r"/static/([a-z0-9-]{1,40}\.(?:js|css|svg))", Static),
]
