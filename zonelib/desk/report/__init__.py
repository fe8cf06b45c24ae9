"""The class report: what a marked class shows, on one page and in tables."""
