"""For mkdocs: pages may link to any file of the repository; the site takes a copy of it along.

In the repository such a link works as it stands. On the site, what lies outside ``docs``
is found under ``repo``.
"""

import posixpath
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from mkdocs.structure.files import File, Files

ROOT = Path(__file__).resolve().parents[2]
LINK = re.compile(r"(\]\()([^)\s#]*)((?:#[^)\s]*)?\))")
CODE = re.compile(r"```.*?```|`[^`\n]*`", re.DOTALL)
PAGES = ("README.md", "DEVELOPERS.md", "CHANGELOG.md")


def targets(text: str, page: str) -> Iterator[str]:
    """Yield the files and folders of the repository that a page links to."""
    for _, link, _ in LINK.findall(CODE.sub("", text)):
        if link and ":" not in link:
            yield posixpath.normpath(posixpath.join(posixpath.dirname(page), link))


def site_uri(target: str) -> str:
    """Return where a file or folder of the repository lies on the site."""
    if target.startswith("docs/"):
        return target.removeprefix("docs/")
    folder = (ROOT / target).is_dir()
    return f"repo/{target}/index.md" if folder else f"repo/{target}"


def rewritten(text: str, page: str) -> str:
    """Return a page's text with its links as they are on the site."""
    start = posixpath.dirname(site_uri(page)) or "."

    def link(found: re.Match[str]) -> str:
        if not found[2] or ":" in found[2]:
            return found[0]
        target = posixpath.normpath(posixpath.join(posixpath.dirname(page), found[2]))
        return found[1] + posixpath.relpath(site_uri(target), start) + found[3]

    parts = zip(CODE.split(text), [*CODE.findall(text), ""], strict=True)
    return "".join(LINK.sub(link, prose) + code for prose, code in parts)


def listing(folder: Path) -> str:
    """Return a page that lists a folder of the repository."""
    names = sorted(one.name for one in folder.iterdir() if not one.name.startswith((".", "__")))
    return "\n".join([f"# {folder.relative_to(ROOT)}", "", *[f"- `{name}`" for name in names], ""])


def on_files(files: Files, *, config: Any) -> Files:
    """Add what lies outside ``docs`` and is linked from a page."""
    queue = [(f"docs/{file.src_uri}", file.content_string) for file in files.documentation_pages()]
    queue += [(name, (ROOT / name).read_text(encoding="utf-8")) for name in PAGES]
    wanted = set(PAGES)
    for page, text in queue:
        wanted |= {target for target in targets(text, page) if not target.startswith("docs/")}
    for target in sorted(name for name in wanted if (ROOT / name).exists()):
        files.append(_file(target, config))
    return files


def _file(target: str, config: Any) -> File:
    path, uri = ROOT / target, site_uri(target)
    if path.is_dir():
        return File.generated(config, uri, content=listing(path))
    if path.suffix == ".md":
        return File.generated(config, uri, content=path.read_text(encoding="utf-8"))
    return File.generated(config, uri, content=path.read_bytes())


def on_page_markdown(markdown: str, *, page: Any, config: Any, files: Files) -> str:
    """Turn links to the repository into links on the site."""
    del config, files
    uri = page.file.src_uri
    if uri.endswith("/index.md") and uri.startswith("repo/"):
        return markdown
    return rewritten(markdown, uri.removeprefix("repo/") if uri.startswith("repo/") else f"docs/{uri}")
