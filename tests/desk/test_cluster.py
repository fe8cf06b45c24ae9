"""Marking by a Dask cluster: the same marks, each once, though a worker is killed midway."""

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.desk.many_answers import lay_load, local_cluster, run
from zonelib.desk.cluster import by_cluster
from zonelib.desk.run import mark_folder
from zonelib.site.faults import FileFault

Zonelib = Callable[..., subprocess.CompletedProcess[str]]
FEW = ("bedroom-drop", "landing-joist", "landing-which-screws")


@pytest.mark.notebook
def test_all_are_marked_once_though_a_worker_is_killed_midway(tmp_path: Path) -> None:
    found = run(tmp_path, 600, names=FEW)
    assert (found.rows, found.lost, found.twice, found.differing) == (600, 0, 0, 0)
    assert found.killed


@pytest.mark.notebook
def test_a_scheduler_without_workers_is_told(zonelib: Zonelib, tmp_path: Path) -> None:
    inbox = lay_load(tmp_path, 3, names=FEW)
    with local_cluster(tmp_path, workers=0) as (address, _):
        ran = zonelib("mark", inbox, "--out", tmp_path / "out", "--scheduler", address)
    assert ran.returncode == 2
    assert "found no worker; allowed: one or more started with dask worker" in ran.stderr
    assert "Traceback" not in ran.stderr


def test_an_address_that_nobody_answers_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("zonelib.desk.cluster.PATIENCE", 0.5)
    inbox = lay_load(tmp_path, 3, names=FEW)
    for address in ("tcp://127.0.0.1:9", "nowhere://at all"):
        with pytest.raises(FileFault, match="found nothing that answers; allowed: the address that dask"):
            mark_folder(inbox, tmp_path / "out", spread=by_cluster(address))
