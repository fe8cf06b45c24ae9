"""The tests; a package of its own, since some libraries install one of the same name."""
