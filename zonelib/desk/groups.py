"""Tell whose each file is: by folder in nbgrader's tree, by candidate number where files lie loose."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path, PurePosixPath

from zonelib.desk.bag import Item, class_zip
from zonelib.desk.classlist import ClassList
from zonelib.desk.contents import read_items
from zonelib.desk.plain import plain
from zonelib.desk.walk import LARGEST, PASSED_OVER, Trouble, folders_in, loose_files
from zonelib.desk.zips import Member, UnreadableZip, is_zip, members_of

__all__ = ["NOT_TRAINEES", "Group", "find_groups", "submitted_root"]

MOST_NAMED = 5

NOT_TRAINEES = ("answers", "solutions", "exercises", "autograded", "feedback", "release", "source")


@dataclass
class Group:
    """All that one trainee handed in: where it lies, not what it holds. The unit of work.

    Attributes
    ----------
    trainee : str
        Folder's name, candidate number or file's name.
    folders : list of Path
        Folders of this trainee.
    items : list of Item
        Files that lie loose, or in a zip of the whole class.
    refused : list of Trouble
        Files that may not be opened.
    loose : list of str
        Names of loose files that were told to be this trainee's by the number in them.
    listed : bool
        Whether the class list names this trainee: then every exercise gets a row, whatever is there.
    """

    trainee: str
    folders: list[Path] = field(default_factory=list)
    items: list[Item] = field(default_factory=list)
    refused: list[Trouble] = field(default_factory=list)
    loose: list[str] = field(default_factory=list)
    listed: bool = False

    @property
    def told(self) -> str:
        """What to say where more than one thing claims to be this trainee's: the highest revision counts."""
        if len(self.loose) + len(self.folders) < 2 or not self.loose:  # noqa: PLR2004 - one is as it should be
            return ""
        named = ", ".join(map(plain, self.loose[:MOST_NAMED]))
        more = f" and {len(self.loose) - MOST_NAMED} more" if len(self.loose) > MOST_NAMED else ""
        return f"{len(self.loose)} files state this candidate number: {named}{more}."


def submitted_root(folder: Path) -> Path:
    """Return the folder whose entries are trainees: nbgrader's ``submitted`` where there is one."""
    return folder / "submitted" if (folder / "submitted").is_dir() else folder


def find_groups(
    folder: Path,
    assignments: Collection[str],
    *,
    skip: Path | None = None,
    classlist: ClassList | None = None,
) -> list[Group]:
    """Return one group for each trainee, those with folders first, each part by name.

    Parameters
    ----------
    folder : Path
        What holds one folder for each trainee, or files, or both; or a zip of that.
    assignments : collection of str
        Names that no trainee has.
    skip : Path, optional
        A folder that is passed over.
    classlist : ClassList, optional
        Who is in the class; those who handed in nothing are among the groups then.
    """
    groups: dict[str, Group] = {}
    known = classlist or ClassList()
    for group in _pieces(folder, {*NOT_TRAINEES, *PASSED_OVER, *assignments}, skip):
        name = known.number_for(group.trainee) or group.trainee
        whole = groups.setdefault(name, Group(name, listed=name in known.names))
        whole.folders += group.folders
        whole.items += group.items
        whole.refused += group.refused
        whole.loose += group.loose
    for name in known.names:
        groups.setdefault(name, Group(name, listed=True))
    return list(groups.values())


def _pieces(folder: Path, others: Collection[str], skip: Path | None) -> Iterator[Group]:
    if folder.is_file():
        yield from sorted(_zipped(folder, others), key=_name)
        return
    root = submitted_root(folder)
    for home in folders_in(root):
        if home.name not in NOT_TRAINEES and home.resolve() != skip:
            yield Group(home.name, folders=[home])
    yield from sorted(_loose(root, others), key=_name)


def _name(group: Group) -> str:
    return group.trainee


def _loose(root: Path, others: Collection[str]) -> Iterator[Group]:
    for path, why in [*loose_files(root), *loose_files(root / "answers")]:
        if path.name.endswith(".bundle.json"):
            continue
        if why and not (why.startswith("It is larger") and path.suffix.lower() == ".zip"):
            yield Group(path.stem, refused=[Trouble(path.name, why)])
        else:
            yield from _file(path, others)


def _file(path: Path, others: Collection[str]) -> Iterator[Group]:
    try:
        with path.open("rb") as file:
            zipped = is_zip(file.read(4))
    except OSError:
        zipped = False
    if zipped:
        yield from _zipped(path, others)
    else:
        yield from _named([Item(path, path.name)], path.stem)


def _named(items: list[Item], stem: str) -> Iterator[Group]:
    """Yield files under the candidate number they state, or `stem`; nothing where they are none of ours."""
    contents = read_items(items)
    if contents.found or contents.troubles:
        yield Group(contents.candidate or stem, items=items, loose=[one.shown for one in items])


def _zipped(path: Path, others: Collection[str]) -> Iterator[Group]:
    """Take a zip apart where it holds a whole class; that of one trainee stays whole."""
    try:
        members = _unwrapped(list(members_of(class_zip(path))), others)
        small = path.stat().st_size <= LARGEST
    except (UnreadableZip, OSError) as error:
        told = str(error) if isinstance(error, UnreadableZip) else "The file cannot be opened."
        yield Group(path.stem, refused=[Trouble(path.name, told)])
        return
    whole = [Item(path, path.name)]
    if small and len({one.candidate for one in read_items(whole).found}) <= 1 and not _of_zips(members):
        yield from _named(whole, path.stem)
    else:
        yield from _in_zip(path, members, others)


def _of_zips(members: list[Member]) -> bool:
    """Tell whether a zip holds several others, as one does that a learning platform makes of a class."""
    return sum(one.parts[-1].lower().endswith(".zip") for one in members) > 1


def _unwrapped(members: list[Member], others: Collection[str]) -> list[Member]:
    """Take off folders that hold all the rest; a folder that may be a trainee's only while it is alone."""
    usable = [one for one in members if not _passed_over(one)]
    for _ in range(3):
        firsts = {one.parts[0] for one in usable if not one.refusal}
        if len(firsts) != 1 or any(len(one.parts) < 2 for one in usable):  # noqa: PLR2004 - folder and file
            break
        usable = [Member(one.number, one.parts[1:], one.refusal) for one in usable]
        if firsts & set(others):
            break
    return usable


def _passed_over(member: Member) -> bool:
    return any(part in PASSED_OVER or part.startswith(".") for part in member.parts if part != "..")


def _in_zip(path: Path, members: Iterable[Member], others: Collection[str]) -> Iterator[Group]:
    """Yield the parts of a zip: its folders by name, and what lies loose in it by candidate number."""
    for one in members:
        shown = f"{path.name}/{one.shown}"
        top = one.parts[0] if len(one.parts) > 1 and one.parts[0] not in others else ""
        if one.refusal:
            yield Group(top or path.stem, refused=[Trouble(shown, one.refusal)])
        elif top:
            yield Group(top, items=[Item(path, shown, one.number)])
        else:
            yield from _named([Item(path, shown, one.number)], PurePosixPath(one.parts[-1]).stem)
