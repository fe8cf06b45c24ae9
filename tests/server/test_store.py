"""The database: where it may lie, of which version, and what several processes see of it."""

from pathlib import Path

import pytest
import sqlalchemy as sa

from zonelib.desk.server.place import network_kind, refuse_network
from zonelib.desk.server.store import FILE, open_store
from zonelib.desk.server.tables import SCHEMA, settings
from zonelib.site.faults import FileFault

MOUNTS = """\
/dev/sda1 / ext4 rw 0 0
server:/export /srv/shared nfs4 rw 0 0
//box/share /mnt/my\\040share cifs rw 0 0
/dev/sdb1 /srv/shared/own ext4 rw 0 0
me@box: /media/box fuse.sshfs rw 0 0
"""


@pytest.fixture
def mounts(tmp_path: Path) -> Path:
    path = tmp_path / "mounts"
    path.write_text(MOUNTS, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        ("/srv/course/server.sqlite", ""),
        ("/srv/shared/course/server.sqlite", "nfs4"),
        ("/srv/shared", "nfs4"),
        ("/srv/sharedness/server.sqlite", ""),
        ("/srv/shared/own/server.sqlite", ""),
        ("/mnt/my share/server.sqlite", "cifs"),
        ("/srv/course/../shared/server.sqlite", "nfs4"),
        ("\\\\box\\share\\server.sqlite", "a path that names another machine"),
        ("//box/share/server.sqlite", "a path that names another machine"),
    ],
)
def test_a_network_drive_is_known(mounts: Path, place: str, kind: str) -> None:
    assert (
        network_kind(
            Path(place) if kind != "a path that names another machine" else Place(place), mounts=mounts
        )
        == kind
    )


class Place(type(Path())):  # type: ignore[misc]
    """A path that keeps its two strokes, as Windows has it."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text

    def __new__(cls, text: str) -> "Place":
        made: Place = super().__new__(cls, text)
        return made

    def __str__(self) -> str:
        return self.text


def test_a_network_drive_is_refused_with_what_to_do(mounts: Path) -> None:
    with pytest.raises(
        FileFault, match=r"found a network drive \(nfs4\); allowed: a folder on this machine's"
    ):
        refuse_network(Path("/srv/shared/server.sqlite"), mounts=mounts)


def test_where_mounts_cannot_be_read_a_file_is_taken(tmp_path: Path) -> None:
    assert network_kind(tmp_path / "x.sqlite", mounts=tmp_path / "none") == ""


def test_a_database_of_a_newer_version_is_refused(tmp_path: Path) -> None:
    store = open_store(tmp_path)
    with store.writing() as connection:
        row = settings.c.name == "schema"
        connection.execute(settings.update().where(row).values(value=str(SCHEMA + 1)))
    store.close()
    with pytest.raises(FileFault, match=f"found version {SCHEMA + 1}; allowed: version {SCHEMA} or older"):
        open_store(tmp_path)


def test_a_file_that_is_no_database_is_told(tmp_path: Path) -> None:
    (tmp_path / FILE).write_text("a letter to my aunt, long enough to be no empty database at all" * 30)
    with pytest.raises(FileFault, match="the database: found file is not a database"):
        open_store(tmp_path)


def test_a_password_is_not_printed() -> None:
    with pytest.raises(FileFault, match=r"mysql://u:\*\*\*@h/d") as caught:
        open_store(Path(), "mysql://u:secret@h/d")
    assert "secret" not in str(caught.value)


def test_two_openings_share_secret_and_rows(tmp_path: Path) -> None:
    first, second = open_store(tmp_path), open_store(tmp_path)
    assert first.secret == second.secret
    with first.writing() as connection:
        connection.execute(settings.insert().values(name="x", value="1"))
    with second.reading() as connection:
        assert (
            connection.execute(sa.select(settings.c.value).where(settings.c.name == "x")).scalar_one() == "1"
        )
    first.close()
    second.close()


def test_a_transaction_that_fails_leaves_nothing(tmp_path: Path) -> None:
    store = open_store(tmp_path)

    def fails() -> None:
        with store.writing() as connection:
            connection.execute(settings.insert().values(name="x", value="1"))
            _ = 1 / 0

    with pytest.raises(ZeroDivisionError, match="division"):
        fails()
    with store.reading() as connection:
        assert connection.execute(sa.select(settings.c.name)).scalars().all() == ["schema", "secret"]
    store.flush()
    store.close()
