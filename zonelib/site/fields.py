"""The kinds of value a case file holds, each refusing what is not one."""

from typing import Annotated, Any

from pydantic import (
    AfterValidator,
    BaseModel,
    ConfigDict,
    Field,
    Strict,
    ValidationInfo,
    ValidatorFunctionWrapHandler,
    WithJsonSchema,
    WrapValidator,
)
from pydantic_core import PydanticCustomError

__all__ = [
    "FARTHEST",
    "PER_LEG",
    "Flag",
    "Id",
    "Length",
    "Number",
    "Piece",
    "Point",
    "Size",
    "known",
    "one_or_per_leg",
]

FARTHEST = 1e7
"""Ten kilometres: beyond it a number is a slip of the pen and floating point grows coarse [mm]."""


class Piece(BaseModel):
    """A part of a file: frozen, and refusing keys it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid")


Number = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=-FARTHEST, le=FARTHEST)]
Length = Annotated[float, Field(strict=True, allow_inf_nan=False, ge=0, le=FARTHEST)]
Size = Annotated[float, Field(strict=True, allow_inf_nan=False, gt=0, le=FARTHEST)]
Point = tuple[Number, Number]
Id = Annotated[str, Strict(), Field(min_length=1, max_length=80)]
Flag = Annotated[bool, Strict()]


def known(group: str) -> AfterValidator:
    """Return a validator that accepts the pack's names of one group.

    Without a vocabulary in the validation context every name is accepted.
    """

    def check(value: str, info: ValidationInfo) -> str:
        allowed = info.context.names(group) if info.context else None
        if allowed is not None and value not in allowed:
            raise PydanticCustomError("unknown_name", "unknown name", {"allowed": allowed})
        return value

    return AfterValidator(check)


def _per_leg(value: Any, handler: ValidatorFunctionWrapHandler, info: ValidationInfo) -> Any:
    """Spread one value over the legs, or insist on one value per leg."""
    legs = len(info.data["points"]) - 1 if "points" in info.data else None
    if not isinstance(value, list | tuple):
        return handler([value]) * (legs or 1)
    values = handler(value)
    if legs is not None and len(values) != legs:
        raise PydanticCustomError("wrong_count", "wrong count", {"found": len(values), "legs": legs})
    return values


PER_LEG = WrapValidator(_per_leg)
"""Marks a field that takes one value, or one per leg of the ``points`` before it."""


def one_or_per_leg(kind: str) -> WithJsonSchema:
    """Return the published schema of such a field: one value, or a list of them."""
    one = {"type": kind}
    return WithJsonSchema({"anyOf": [one, {"type": "array", "items": one}]})
