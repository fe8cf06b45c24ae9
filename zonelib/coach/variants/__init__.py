"""Rooms that differ and are equally hard, made from one exercise: one for each trainee, or for each seed."""

from zonelib.coach.variants.seeds import seed_for, variant_of, whose
from zonelib.coach.variants.vary import vary

__all__ = ["seed_for", "variant_of", "vary", "whose"]
