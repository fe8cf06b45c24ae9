"""Is this computer ready: each thing that has kept a workbook from opening or saving, looked at in turn."""

from zonelib.desk.doctor.checks import examine
from zonelib.desk.doctor.sign import Computer, Sign

__all__ = ["Computer", "Sign", "examine"]
