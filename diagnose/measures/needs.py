"""What a kind of plant needs, as numbers the measures compare with; filled from the plant profiles in rules/."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, model_validator

Positive = Annotated[float, Field(gt=0)]


class _Sourced(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)
    origin: str | tuple[str, ...]

    @model_validator(mode="after")
    def _in_order(self) -> "_Sourced":
        values = [v for k, v in self if k != "origin" and isinstance(v, float)]
        if values != sorted(values):
            raise ValueError("numbers from low to high, in the order of the fields")
        return self


class LightNeed(_Sourced):
    """Daily light integral in mol/m²/d: below `least` the plant declines, from `good` on it grows well."""

    least_dli_mol_m2_d: Positive
    good_dli_mol_m2_d: Positive


class WarmthNeed(_Sourced):
    """Temperatures in °C: chilling harm below `chill`; comfortable nights from `night_least`; days up to `day_most`."""

    chill_c: float
    night_least_c: float
    day_least_c: float
    day_most_c: float


class HumidityNeed(_Sourced):
    """Relative humidity in %: below `least` leaves suffer, from `good` on none do."""

    least_percent: Positive
    good_percent: Positive


class LeafNumber(_Sourced):
    """How many leaves one stem or crown usually carries, low to high."""

    standing_low: Positive
    standing_high: Positive


class LeafLife(_Sourced):
    """How long one leaf lives, in days, low to high."""

    life_low_d: Positive
    life_high_d: Positive


class PlantNeeds(BaseModel):
    """All needs of one profile; any may be unknown."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    light: LightNeed | None = None
    warmth: WarmthNeed | None = None
    humidity: HumidityNeed | None = None
    leaf_number: LeafNumber | None = None
    leaf_life: LeafLife | None = None
