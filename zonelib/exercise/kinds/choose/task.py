"""The ``choose`` kind: what is asked, and where the right answers come from."""

from typing import Annotated, Literal

from pydantic import Field

from zonelib.site.fields import Flag, Id, Piece

__all__ = ["Choice", "ChooseTask"]

Words = Annotated[str, Field(min_length=1, max_length=2000)]


class Choice(Piece):
    """One choice of a tutor's own question: what it says, whether it is right, and why."""

    id: Id
    words: Words
    right: Flag
    why: Words


class ChooseTask(Piece):
    """A question with choices.

    Attributes
    ----------
    ask : str
        ``safe-fixings``: which screws of the case may go in; ``passing-routes``: which of its routes pass;
        ``clauses``: which clauses stand behind the failures of one route; ``concerned-faces``: which faces
        one route lies too near to; ``own``: the tutor's own question, with the key in `choices`.
    of : str
        The route that ``clauses`` and ``concerned-faces`` ask of.
    among : tuple of str
        The choices on offer, of those that could be; empty offers all.
    pick : str
        Whether one or several are to be ticked.
    most_others : int
        How many clauses are offered beside the right ones.
    choices : tuple of Choice
        For ``own`` only.
    source : str
        For ``own``: where the key comes from, as a reader can find it.
    seed : int or None
        Which order the choices come in; by default it hangs on the exercise's name.
    """

    ask: Literal["safe-fixings", "passing-routes", "clauses", "concerned-faces", "own"]
    of: Id | None = None
    among: tuple[Id, ...] = ()
    pick: Literal["one", "several"] = "several"
    most_others: Annotated[int, Field(ge=1, le=20)] = 3
    choices: Annotated[tuple[Choice, ...], Field(max_length=20)] = ()
    source: Annotated[str, Field(max_length=2000)] = ""
    seed: Annotated[int, Field(ge=0, le=10**9)] | None = None
