"""A small room under load, its server killed once; the long form is ``python -m tests.server.load``."""

from contextlib import nullcontext

import pytest

from tests.server.load import load
from tests.server.processes import cluster

pytestmark = pytest.mark.notebook


@pytest.mark.parametrize("postgresql", [False, True], ids=["sqlite", "postgresql"])
def test_what_was_confirmed_outlasts_a_killed_server(postgresql: bool) -> None:
    with cluster() if postgresql else nullcontext() as database:
        found = load(20, 8, kills=1, every=0.5, database=database)
    assert found.faults == ()
    assert found.saves > 20
    assert found.memory < 150
