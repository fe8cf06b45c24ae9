"""Packs of rules as data, the engine that applies them, and the words of each finding."""
