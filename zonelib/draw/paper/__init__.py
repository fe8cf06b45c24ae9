"""Paper: sheets of words, forms and drawings to a stated scale, as A4 pages of a PDF."""

from zonelib.draw.paper.blocks import Block, Form, Plan, Sheet, Words

__all__ = ["Block", "Form", "Plan", "Sheet", "Words"]
