"""`python -m zonelib` does what `zonelib` does, where no script folder is on the path."""

from zonelib.cli import main

if __name__ == "__main__":
    main()
