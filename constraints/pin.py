"""Pin: choices that are already decided."""

from typing import Any, ClassVar, Self

from pydantic import Field, field_validator, model_validator

from optimiser.board.board import Board
from optimiser.board.model import Tag, total
from optimiser.domain.breach import Breach
from optimiser.domain.plan import Plan
from optimiser.domain.quality import dose_of
from optimiser.domain.season import Season
from optimiser.domain.sentence import Fact
from optimiser.domain.strict import Strict
from optimiser.domain.week_number import index_of
from optimiser.domain.wording import counted
from optimiser.rule import Rule, Waiver


class Pinned(Strict):
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
    asks: ClassVar[str] = "choices held by hand"
    title: ClassVar[str] = "Choices held"
    dropped: ClassVar[str] = "letting go of the choices held by hand"
    unit: ClassVar[str] = "choices"
    wish: ClassVar[bool] = True
    eases: ClassVar[dict[str, str]] = {
        "band": "unpin {quality} from band {band} in {week} (tried with {tried})",
        "dose": "unpin {quality} from dose {dose} in {week} (tried with {tried})",
        "": "drop the pin in {week}, which is closed",
    }

    choices: tuple[Pinned, ...] = ()

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
            week, index = index_of(choice.week), board.season.keys.index(choice.quality)
            if week not in open_weeks:
                wanted = choice.band is not None or choice.dose != "none"
                wanted = wanted and not self.free(week, choice.quality)
                quality = board.season.qualities[index]
                tag = self.tag("a choice is pinned in closed {week}", week, quality)
                board.model.at_most({board.one: int(wanted)}, 0, tag)
                continue
            self._post_band(board, choice, week, index)
            self._post_dose(board, choice, week, index)

    def _post_band(self, board: Board, choice: Pinned, week: int, index: int) -> None:
        rung = _rung(board.season, choice)
        if rung is not None and not self.free(week, choice.quality, "band"):
            tag = self.tag(
                "{quality:is} pinned to band {band} in {week}",
                week,
                board.season.qualities[index],
                "band",
                limit=rung + 1,
                subject="rung",
                band=choice.band or "",
            )
            board.model.at_least(board.rung(index, week, rung), 1, tag)

    def _post_dose(self, board: Board, choice: Pinned, week: int, index: int) -> None:
        if choice.dose is None or self.free(week, choice.quality, "dose"):
            return
        dose = dose_of(choice.dose)
        tag = self.tag(
            "{quality:is} pinned to dose {dose} in {week}",
            week,
            board.season.qualities[index],
            "dose",
            unit="doses",
            limit=int(dose),
            subject="dose",
            dose=dose.word,
        )
        below = total(board.at_least(index, week, least) for least in range(1, dose + 1))
        above = total(board.at_least(index, week, least) for least in range(dose + 1, 4))
        if below:
            board.model.at_least(below, int(dose), tag)
        if above:
            board.model.at_most(above, 0, tag)

    def audit(self, plan: Plan, season: Season) -> list[Breach]:
        """Compare each pin with the plan."""
        found: list[Breach] = []
        for choice in self.choices:
            week, key = index_of(choice.week), choice.quality
            index = [quality.key for quality in season.qualities].index(key)
            quality = season.qualities[index]
            if season.weeks[week].closed:
                if choice.band is not None or choice.dose != "none":
                    form = "a choice is pinned in closed {week}"
                    found += self.breaches(1, form, week, quality)
                continue
            rung, dose = plan.rungs[index][week], plan.doses[index][week]
            if choice.band is not None and rung != _rung(season, choice):
                form = "{quality:is} not on band {band} in {week}"
                found += self.breaches(1, form, week, quality, "band", band=choice.band)
            if choice.dose is not None:
                over = abs(int(dose) - int(dose_of(choice.dose)))
                form = "{quality:has} dose {dose} in {week}, not {pinned}"
                said = {"dose": dose.word, "pinned": choice.dose}
                found += self.breaches(over, form, week, quality, "dose", unit="doses", **said)
        return found

    def tried(self, season: Season, plan: Plan, place: Tag, by: int) -> dict[str, Fact]:
        """Return what the plan has in the place instead."""
        if place.week is None or place.quality is None:
            return {}
        index = season.keys.index(place.quality)
        rung, dose = plan.rungs[index][place.week], plan.doses[index][place.week]
        if place.part == "dose" or rung is None:
            return {"tried": f"dose {dose.word}"}
        return {"tried": f"band {season.qualities[index].bands[rung].code}"}

    def on_joining(self, first: int, absent: int) -> Self:
        """Let go bands, which are the squad's, and what is pinned while the group is away."""
        away = (Waiver(week=week) for week in range(1, absent + 1))
        return self.waived(Waiver(part="band"), *away)

    @classmethod
    def setting_words(cls, parameter: str, value: Any) -> str:
        """Count the choices held."""
        return f"{counted(len(value), 'choice')} held" if parameter == "choices" else ""

    def words(self) -> str:
        """Say it to the coach."""
        return f"What is decided stays: {counted(len(self.choices), 'choice')}."


def _rung(season: Season, choice: Pinned) -> int | None:
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
