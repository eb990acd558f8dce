"""Pin: choices that are already decided."""

from typing import ClassVar, Self

from pydantic import Field, field_validator, model_validator

from optimiser.board.board import Board
from optimiser.board.model import total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import dose_of
from optimiser.domain.season import Season
from optimiser.domain.strict import Strict
from optimiser.rule import Rule


class Choice(Strict):
    """One decided choice.

    Parameters
    ----------
    week
        Counted from 1.
    quality
        Key.
    band
        Code of the band, or its rung counted from 1.
    dose
        none, touch, reduced or full.
    """

    week: int = Field(ge=1)
    quality: str
    band: str | int | None = None
    dose: str | None = None

    @field_validator("dose")
    @classmethod
    def _check_dose(cls, value: str | None) -> str | None:
        return None if value is None else dose_of(value).word

    @model_validator(mode="after")
    def _check_some(self) -> Self:
        if self.band is None and self.dose is None:
            raise ValueError("a pin must give a band, a dose or both")
        return self


class Pin(Rule):
    """Hold choices.

    Parameters
    ----------
    choices
        What is decided.
    """

    name: ClassVar[str] = "pin"
    unit: ClassVar[str] = "choices"

    choices: tuple[Choice, ...] = ()

    def check(self, season: Season) -> None:
        """Refuse pins of weeks, qualities or bands that the season does not have."""
        for choice in self.choices:
            if choice.week > len(season.weeks):
                raise ValueError(f"week must be 1 to {len(season.weeks)} (got {choice.week})")
            if choice.quality not in season.keys:
                keys = ", ".join(season.keys)
                raise ValueError(f"quality must be one of {keys} (got {choice.quality!r})")
            _rung(season, choice)

    def post(self, board: Board) -> None:
        """Post each pin in a week that can be chosen; one in a closed week cannot be kept."""
        open_weeks = set(board.open_weeks())
        for choice in self.choices:
            week, index = choice.week - 1, board.season.keys.index(choice.quality)
            if week not in open_weeks:
                wanted = choice.band is not None or choice.dose != "none"
                wanted = wanted and not self.free(week, choice.quality)
                tag = self.tag(
                    f"a choice is pinned in closed week {week + 1}", week, choice.quality
                )
                board.model.at_most({board.one: int(wanted)}, 0, tag)
                continue
            self._post_band(board, choice, week, index)
            self._post_dose(board, choice, week, index)

    def _post_band(self, board: Board, choice: Choice, week: int, index: int) -> None:
        rung = _rung(board.season, choice)
        if rung is not None and not self.free(week, choice.quality, "band"):
            name = board.season.qualities[index].name
            tag = self.tag(
                f"{name} is pinned to band {choice.band} in week {week + 1}",
                week,
                choice.quality,
                "band",
            )
            board.model.at_least(board.rung(index, week, rung), 1, tag)

    def _post_dose(self, board: Board, choice: Choice, week: int, index: int) -> None:
        if choice.dose is None or self.free(week, choice.quality, "dose"):
            return
        dose = dose_of(choice.dose)
        name = board.season.qualities[index].name
        tag = self.tag(
            f"{name} is pinned to dose {dose.word} in week {week + 1}",
            week,
            choice.quality,
            "dose",
            "doses",
        )
        below = total(board.at_least(index, week, least) for least in range(1, dose + 1))
        above = total(board.at_least(index, week, least) for least in range(dose + 1, 4))
        if below:
            board.model.at_least(below, int(dose), tag)
        if above:
            board.model.at_most(above, 0, tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Compare each pin with the plan."""
        found = []
        for choice in self.choices:
            week, key = choice.week - 1, choice.quality
            index = [quality.key for quality in season.qualities].index(key)
            name = season.qualities[index].name
            if season.weeks[week].closed:
                wanted = choice.band is not None or choice.dose != "none"
                if wanted and not self.free(week, key):
                    words = f"a choice is pinned in closed week {choice.week}"
                    found.append(self.breach(1, words, week, key))
                continue
            rung, dose = plan.rungs[index][week], plan.doses[index][week]
            band_free, dose_free = (self.free(week, key, part) for part in ("band", "dose"))
            if choice.band is not None and rung != _rung(season, choice) and not band_free:
                words = f"{name} is not on band {choice.band} in week {choice.week}"
                found.append(self.breach(1, words, week, key, "band"))
            if choice.dose is not None and dose.word != choice.dose and not dose_free:
                over = abs(int(dose) - int(dose_of(choice.dose)))
                words = f"{name} has dose {dose.word} in week {choice.week}, not {choice.dose}"
                found.append(self.breach(over, words, week, key, "dose", "doses"))
        return found

    def words(self) -> str:
        """Say it to the coach."""
        return f"{len(self.choices)} choice(s) are decided and stay."


def _rung(season: Season, choice: Choice) -> int | None:
    """Return the pinned rung from 0; ValueError if the ladder has no such band."""
    if choice.band is None:
        return None
    quality = season.qualities[season.keys.index(choice.quality)]
    codes = [band.code for band in quality.bands]
    if isinstance(choice.band, int) and 1 <= choice.band <= len(codes):
        return choice.band - 1
    if choice.band in codes:
        return codes.index(str(choice.band))
    raise ValueError(
        f"band must be one of {', '.join(codes)} or 1 to {len(codes)} (got {choice.band!r})"
    )
