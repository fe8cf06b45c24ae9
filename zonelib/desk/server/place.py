"""Where a database file may lie: on a disk of this machine, never on a network drive."""

import os
import sys
from pathlib import Path

from zonelib.site.faults import Fault, FileFault

__all__ = ["network_kind", "refuse_network"]

NETWORK = frozenset({
    "9p", "afpfs", "afs", "beegfs", "ceph", "cifs", "davfs", "fuse.davfs", "fuse.glusterfs", "fuse.rclone",
    "fuse.sshfs", "gfs2", "glusterfs", "gpfs", "lustre", "ncpfs", "nfs", "nfs4", "ocfs2", "prl_fs", "smb",
    "smb2", "smb3", "smbfs", "vboxsf", "webdav",
})  # fmt: skip
"""File systems on which two machines may write at once, and on which SQLite's locks cannot be trusted."""

MOUNTS = Path("/proc/self/mounts")
REMOTE = 4
"""What Windows calls a mapped network drive (`GetDriveTypeW`)."""

ALLOWED = "a folder on this machine's own disk, with --database PATH, or a PostgreSQL address"


def refuse_network(path: Path, *, mounts: Path = MOUNTS) -> None:
    """Refuse a database file that would lie on a network drive.

    Raises
    ------
    FileFault
        With what was found, and where to put it instead.
    """
    if kind := network_kind(path, mounts=mounts):
        raise FileFault(str(path), [Fault("the database", f"a network drive ({kind})", ALLOWED)])


def network_kind(path: Path, *, mounts: Path = MOUNTS) -> str:
    """Return the kind of network drive a path lies on, or "" for a disk of this machine."""
    text = str(path)
    if text.startswith(("\\\\", "//")):
        return "a path that names another machine"
    if sys.platform == "win32":
        return _mapped(path)
    kind = _mounted_as(path, mounts)
    return kind if kind in NETWORK else ""


def _mounted_as(path: Path, mounts: Path) -> str:
    """Return the file system of the longest mount point above a path."""
    try:
        lines = mounts.read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return ""
    whole = os.path.realpath(path)
    found = ("", "")
    for line in lines:
        _, place, kind, *_ = [*line.split(" "), "", "", ""]
        place = place.replace("\\040", " ")
        inside = whole == place or whole.startswith(place.rstrip("/") + "/")
        if place and inside and len(place) >= len(found[0]):
            found = (place, kind)
    return found[1]


def _mapped(path: Path) -> str:
    """Return what a Windows drive letter stands for, if it is another machine's."""
    import ctypes

    drive = path.resolve().anchor
    system = getattr(ctypes, "windll", None)
    remote = system is not None and system.kernel32.GetDriveTypeW(drive) == REMOTE
    return f"drive {drive} is mapped" if remote or drive.startswith("\\\\") else ""
