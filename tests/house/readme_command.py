"""Print a command that README.md gives: `python3 tests/house/readme_command.py tests`.

Plain Python, since .ci/run calls it before anything is installed.
"""

import re
import sys
from pathlib import Path

README = Path(__file__).resolve().parents[2] / "README.md"


def command(name: str, shell: str = "sh") -> str:
    """Return the one fenced command under the mark `<!-- name: shell -->`."""
    text = README.read_text(encoding="utf-8")
    found = re.findall(rf"<!-- {name}: {shell} -->\n```{shell}\n(.+)\n```", text)
    if len(found) != 1:
        message = f"README.md holds {len(found)} commands under <!-- {name}: {shell} -->; it must hold one."
        raise SystemExit(message)
    return str(found[0])


if __name__ == "__main__":
    sys.stdout.write(command(sys.argv[1]) + "\n")
