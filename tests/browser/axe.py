"""What axe-core finds on a sheet in JupyterLab."""

import os

from playwright.sync_api import Page

from tests.house.files import ROOT

__all__ = ["violations"]

AXE = os.environ.get("AXE_CORE", ROOT / "node_modules" / "axe-core" / "axe.min.js")
# The sheet alone: the shell round it is JupyterLab's.
RUN = """async () => (await axe.run('.zl-sheet')).violations
  .map((one) => [one.id, ...one.nodes.map((node) => node.html.slice(0, 200))].join(' | '))"""
UNFOLD = "document.querySelectorAll('.zl-sheet details').forEach((one) => { one.open = true; })"


def violations(page: Page) -> list[str]:
    """Return what axe finds on the sheet, with everything on it unfolded."""
    page.evaluate(UNFOLD)
    if not page.evaluate("'axe' in window"):
        page.add_script_tag(path=AXE)
    return list(page.evaluate(RUN))
