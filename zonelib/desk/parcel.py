"""A zip for each trainee: the same bytes whenever it is made, and no name in it."""

import zipfile
from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

__all__ = ["CANDIDATE", "write_parcel"]

CANDIDATE = "answers/.kept/candidate.txt"
"""Where a sheet looks for the candidate number, so that a trainee need not type it."""

EPOCH = (1980, 1, 1, 0, 0, 0)
READABLE = 0o100644 << 16


def write_parcel(path: Path, folder: str, files: Mapping[str, str]) -> Path:
    """Write files into a zip, all in one folder.

    Parameters
    ----------
    path : Path
        The zip.
    folder : str
        Name of the folder in it.
    files : mapping
        Text by name.
    """
    whole = BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_DEFLATED) as parcel:
        for name in sorted(files):
            info = zipfile.ZipInfo(f"{folder}/{name}", EPOCH)
            info.compress_type, info.external_attr = zipfile.ZIP_DEFLATED, READABLE
            parcel.writestr(info, files[name])
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(whole.getvalue())
    return path
