"""A rule's condition: one flat model, positive and three-valued.

A condition on an unknown fact is neither true nor false. `is_not` speaks of known values only.
"""

from typing import Annotated, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

from diagnose.language import _

Word = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=80)]
FactName = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*(\.[a-z][a-z0-9_]*)?$", max_length=160)]
Number = Annotated[float, Field(ge=-1e15, le=1e15, strict=True)]  # strict: neither true nor "15" is a number

OPERATORS = ("is", "is_not", "one_of", "below", "above", "at_least", "at_most", "between")


class Strict(BaseModel):
    """A frozen model that refuses keys it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


class Condition(Strict):
    """`{fact, one operator}`, `{finding}`, `{all = [...]}` or `{any = [...]}`; the last two nest."""

    fact: FactName | None = None
    is_: Annotated[Word | Number | None, Field(alias="is")] = None
    is_not: Word | None = None
    one_of: Annotated[tuple[Word, ...], Field(min_length=1)] | None = None
    below: Number | None = None
    above: Number | None = None
    at_least: Number | None = None
    at_most: Number | None = None
    between: tuple[Number, Number] | None = None
    """Both ends belong to it."""
    finding: Word | None = None
    all: Annotated[tuple["Condition", ...], Field(min_length=1)] | None = None
    any: Annotated[tuple["Condition", ...], Field(min_length=1)] | None = None

    @property
    def operator(self) -> str:
        """The name of the one operator of a condition on a fact."""
        return next(name for name in OPERATORS if self.operand(name) is not None)

    def operand(self, operator: str) -> Word | Number | tuple[Word, ...] | tuple[Number, Number] | None:
        """Return the value an operator compares with, None if the condition does not use it."""
        return getattr(self, "is_" if operator == "is" else operator)  # type: ignore[no-any-return]

    @model_validator(mode="after")
    def _one_shape(self) -> Self:
        shapes = [n for n in ("fact", "finding", "all", "any") if getattr(self, n) is not None]
        if len(shapes) != 1:
            raise ValueError(_exactly_one("fact, finding, all, any", shapes))
        used = [name for name in OPERATORS if self.operand(name) is not None]
        if shapes == ["fact"] and len(used) != 1:
            raise ValueError(_exactly_one(", ".join(OPERATORS), used))
        if shapes != ["fact"] and used:
            said = _("no {operator} beside {shape}, since it belongs to a fact")
            raise ValueError(said.format(operator=used[0], shape=shapes[0]))
        if self.between and self.between[0] > self.between[1]:
            raise ValueError(_("between = [low, high] with the low number first"))
        return self


def _exactly_one(names: str, found: list[str]) -> str:
    if not found:
        return _("exactly one of {names} (found none)").format(names=names)
    return _("exactly one of {names} (found {found})").format(names=names, found=", ".join(found))


Truth = Literal["true", "false", "unknown"]
