"""Where concealed cables may run: zone geometry, rules and the marking of exercises.

>>> import zonelib
>>> case = zonelib.read_case("docs/examples/bedroom-wall.toml")
>>> zonelib.judge(case).passed
False
"""

from zonelib.rules.engine import Verdict, judge
from zonelib.rules.finding import Finding, Place
from zonelib.rules.load import read_case
from zonelib.rules.pack import Pack, load_pack
from zonelib.site.faults import Fault, FileFault
from zonelib.site.model import Case

__all__ = [
    "Case",
    "Fault",
    "FileFault",
    "Finding",
    "Pack",
    "Place",
    "Verdict",
    "judge",
    "load_pack",
    "read_case",
]
