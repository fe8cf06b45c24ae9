"""Make one zip out of another: files changed, renamed, nested and lost, and numbers in it that are not so."""

import io
import warnings
import zipfile
from random import Random

from tests.fuzz.mutate import mutated

__all__ = ["mutated_zip"]

BYTES_ONLY = 0.15
"""Share that is changed as bytes, whatever they mean."""

UNTRUE = 0.4
"""Share of the others in which a field of a header is overwritten."""

LONGEST = 60_000
NAMES = (
    "../../x.json", "/etc/x.json", "C:\\x.json", "hw1\\answers\\drop.json", "a/" * 60 + "x.json",
    "\u202e.json", "answers/bedroom-drop.json", "C-01/hw1/answers/0.json", "mimetype",
    "__MACOSX/x.json", ".x", "x.zip", "",
    "bundles/a.bundle.json", "hw1.ipynb", "timestamp.txt", "x/", "n" * 300,
)  # fmt: skip
PACKED = (*[zipfile.ZIP_DEFLATED] * 12, *[zipfile.ZIP_STORED] * 6, zipfile.ZIP_BZIP2)
HEADERS = {b"PK\1\2": (8, 10, 16, 20, 24, 28, 30, 32, 38, 42), b"PK\3\4": (6, 8, 14, 18, 22, 26, 28),
           b"PK\5\6": (4, 8, 10, 12, 16, 20)}  # fmt: skip
"""Where the fields of each header begin [bytes after its mark]."""

Files = list[tuple[str, bytes]]


def mutated_zip(data: bytes, rng: Random, *, among: list[bytes]) -> bytes:
    """Return a zip that differs from one, mostly so that it can still be opened."""
    if rng.random() < BYTES_ONLY or not (files := _files(data)):
        return mutated(data, rng, among=among)
    for _ in range(rng.choice((1, 1, 2, 4))):
        _edit(files, rng, data)
    made = _made(files, rng)
    return (_untrue(made, rng) if rng.random() < UNTRUE else made)[:LONGEST]


def _files(data: bytes) -> Files:
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as whole:
            return [(one.filename, whole.read(one)) for one in whole.infolist() if one.file_size < LONGEST]
    except Exception:  # noqa: BLE001 - what a damaged zip raises is not what is tried here
        return []


def _edit(files: Files, rng: Random, whole: bytes) -> None:
    at = rng.randrange(len(files))
    name, data = files[at]
    match rng.randrange(8):
        case 0:
            files[at] = (rng.choice(NAMES), data)
        case 1:
            files.append((rng.choice((name, rng.choice(NAMES))), data))
        case 2:
            files.append((f"{at}.zip", whole))
        case 3 if len(files) > 1:
            del files[at]
        case 4:
            files[at] = (name, rng.choice((b"", b"{}", b"[" * 3000, b" " * 20_000, b"\xff\xfe", b"PK\3\4")))
        case _:
            files[at] = (name, mutated(data, rng, among=[one for _, one in files]))


def _made(files: Files, rng: Random) -> bytes:
    made = io.BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(made, "w") as whole:
        warnings.simplefilter("ignore")  # one name twice is what is wanted
        for name, data in files:
            whole.writestr(zipfile.ZipInfo(name), data, rng.choice(PACKED))
    return made.getvalue()


def _untrue(data: bytes, rng: Random) -> bytes:
    """Overwrite a field of one of its headers."""
    mark = rng.choice(list(HEADERS))
    at = data.find(mark, rng.randrange(len(data)))
    at = max(at, data.find(mark), 0) + rng.choice(HEADERS[mark])
    size = rng.choice((1, 2, 4))
    new = rng.choice((b"\0" * size, b"\xff" * size, rng.randbytes(size)))
    return data[:at] + new + data[at + size :]
