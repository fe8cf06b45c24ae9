"""zonelib: where concealed cables may run, checked by clause."""

__version__ = "0.1.0.dev0"
