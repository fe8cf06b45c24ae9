"""What axe-core finds on a whole page."""

import os
from pathlib import Path

from playwright.sync_api import Page

from tests.house.files import ROOT

__all__ = ["violations"]

AXE = Path(os.environ.get("AXE_CORE", ROOT / "node_modules" / "axe-core" / "axe.min.js"))


def violations(page: Page) -> list[str]:
    """Return what axe finds, each with where."""
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate(
        "async () => (await axe.run()).violations"
        ".map((v) => [v.id, ...v.nodes.map((n) => n.html)].join(' | '))"
    )
    return list(found)
