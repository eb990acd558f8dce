"""The season on the page: what it is, what was changed, and the plan that goes with it."""

import datetime as dt
import functools
import threading
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Concatenate, ParamSpec, TypeVar

from cli.days import asked_of
from cli.files.changes_file import ChangedSeason, GivenChanges, Origin, changed_season
from cli.files.errors import InputError
from cli.season.changing import check_edits_ahead
from cli.season.day_demands import keep_asked
from cli.season.enlisting import enlist, take_squad
from cli.season.entering import enter
from cli.season.folder import Folder, folder_of
from cli.season.plan_bytes import plan_bytes
from cli.season.recording import record
from cli.serve.edit_words import doubts_of, edit_words, refused_words
from cli.serve.finding import Clashing, NotFound, Planned
from cli.serve.jobs import Failed, PageJob
from cli.serve.keeping import NotNowError, changed_files, plan_name
from cli.serve.opening import Opened, open_season
from cli.serve.side import SeasonSide
from cli.serve.solver import JobRunner
from cli.serve.steps import State, Steps
from cli.solving import settings_of
from constraints.pin import Pin
from optimiser.days.holds import DayHold, over
from optimiser.domain.changes import Changes
from optimiser.domain.edits import Edit, PinChoice, Set
from optimiser.domain.week_number import index_of
from optimiser.domain.wording import counted

#: Times a search is begun again after its process has died.
AGAIN = 1
STOPPED = "Stopped. The plan shown is not one for these changes; go on to find it."
SO_FAR = "Stopped. The plan shown is the best so far; go on to search for a better one."
LATER = "It is saved as soon as the search has ended."
SAVED_SO_FAR = " The plan is provisional: the search was stopped before it had ended."
NOT_FOUND = "No plan was found in time, which proves nothing; go on to search longer."
DIED = "The search ended by itself; go on to begin it again."


class StaleError(NotNowError):
    """Something asked for a season that has changed since it was shown."""


class DoubtError(Exception):
    """A change that may be a slip; it is made if it is asked for again."""

    def __init__(self, words: Sequence[str]) -> None:
        super().__init__("; ".join(words))
        self.words = list(words)


@dataclass(frozen=True)
class Kept:
    """A state put aside under a name, to be compared and come back to."""

    name: str
    state: State
    changed: ChangedSeason | None
    side: SeasonSide


def _same(changed: ChangedSeason, here: SeasonSide) -> bool:
    """Tell whether changes leave everything as it is."""
    fixtures = changed.loaded.season.fixtures == here.season.fixtures
    breaks = changed.loaded.scenario.breaks == here.loaded.scenario.breaks
    return fixtures and breaks and changed.rules == here.rules


Given = ParamSpec("Given")
T = TypeVar("T")


def one_at_a_time(
    method: Callable[Concatenate["Session", Given], T],
) -> Callable[Concatenate["Session", Given], T]:
    """Let one tab, or what has been searched for, at a time do something with a session."""

    @functools.wraps(method)
    def held(session: "Session", /, *args: Given.args, **named: Given.kwargs) -> T:
        with session.lock:
            return method(session, *args, **named)

    return held


class Session:
    """What is done with one season on the page, by any number of tabs.

    Parameters
    ----------
    opened
        The season as its files say it.
    today
        Tells what day it is.
    """

    def __init__(self, opened: Opened, today: Callable[[], dt.date]) -> None:
        self.lock = threading.RLock()
        self.today = today
        self.version = self.revision = 0
        self.kept: list[Kept] = []
        self.answer: object = None
        self.solver, self.asker = JobRunner(self._found), JobRunner(self._answered, spare=False)
        self._begin(opened)

    def _begin(self, opened: Opened) -> None:
        """Begin from the files, and look for a plan where they have none that fits."""
        self._take(opened)
        if self.base.plan is None or self.base.provisional:
            self._search()
            self.tell(opened.words)

    def _take(self, opened: Opened) -> None:
        """Begin from the files."""
        self.loaded, self.files = opened.loaded, opened.files
        self.base = self.here = self._filed = opened.side
        self.settings = settings_of(opened.loaded, None, False, None)
        self.steps = Steps()
        self.changed: ChangedSeason | None = None
        self.clash: Clashing | None = None
        self.told, self.trouble, self.saving, self._again = opened.words, "", False, AGAIN
        self._known: dict[tuple[str, ...], SeasonSide] = {}
        self._seasons: dict[tuple[str, ...], ChangedSeason | None] = {}
        self._moved()

    def close(self) -> None:
        """End what runs."""
        self.solver.close()
        self.asker.close()

    def check(self, revision: object) -> None:
        """Refuse what was asked of an older state.

        Raises
        ------
        StaleError
            With words for people.
        """
        if revision != self.revision:
            words = "The season was changed meanwhile, in another tab: this is what it is now."
            raise StaleError(f"{words} Nothing was done; look, and do it again if you still want.")

    # --- changes ------------------------------------------------------------------------------

    @one_at_a_time
    def edit(self, edits: Sequence[Edit], *, sure: bool = False) -> None:
        """Make more changes and plan anew.

        Raises
        ------
        InputError
            If one cannot be made; nothing is changed then.
        DoubtError
            If one may be a slip, unless people are sure.
        """
        if self.base.plan is None and self.clash is None:
            raise NotNowError("Wait for the first plan of the season.")
        state = self.steps.with_more(edits)
        changed = self._season(state)
        assert changed is not None
        if _same(changed, self.here):
            raise NotNowError("It is so already; nothing was changed.")
        asked = [] if sure else doubts_of(edits, self.here.season, changed.loaded.season)
        if asked:
            raise DoubtError(asked)
        self.steps.step(state)
        self._stand(changed)

    @one_at_a_time
    def take_back(self, number: int) -> None:
        """Take one change back, whichever it is."""
        state = self.steps.without(number)
        if state is None:
            raise NotNowError("That change is no longer there.")
        self._go_to(state, lambda: self.steps.step(state))

    @one_at_a_time
    def loosen(self, number: int) -> None:
        """Take a repair of the clash: its waivers become changes of the rules."""
        mends = self.clash.mends if self.clash else ()
        if not 0 <= number < len(mends):
            raise NotNowError("That repair is no longer there.")
        given: dict[str, list[object]] = {
            rule.name: [waiver.model_dump(exclude_none=True) for waiver in rule.waive]
            for rule in self.here.rules
        }
        for rule, waiver in mends[number].waivers:
            given[rule].append(waiver)
        rules = dict.fromkeys(rule for rule, _ in mends[number].waivers)
        edits = [Set(rule=rule, parameter="waive", value=given[rule]) for rule in rules]
        self.edit(edits, sure=True)

    @one_at_a_time
    def release(self, week: int, quality: str) -> None:
        """Let go of what is held in one place."""
        pins = [rule for rule in self.here.rules if isinstance(rule, Pin)]
        held = [choice for rule in pins for choice in rule.choices]
        choices = [each.model_dump(exclude_none=True) for each in held]
        left = [each for each in choices if (each["week"], each["quality"]) != (week, quality)]
        if len(left) == len(choices):
            raise NotNowError("Nothing is held there.")
        mine = [
            made.number
            for made in self.steps.now
            if isinstance(made.edit, PinChoice)
            and (made.edit.week, made.edit.quality) == (week, quality)
        ]
        if len(mine) == len(choices) - len(left) == 1:
            self.take_back(mine[0])
        else:
            self.edit([Set(rule=Pin.name, parameter="choices", value=left)], sure=True)

    @one_at_a_time
    def undo(self) -> None:
        """Take the last step back; after a save, take that back."""
        if self.steps.can_undo:
            self._go_to(self.steps.undone(), self.steps.undo)
        else:
            self._reopened(f"Taken back: {self.files.back(self.today())}.")

    @one_at_a_time
    def redo(self) -> None:
        """Do again what was undone last."""
        if self.steps.can_redo:
            self._go_to(self.steps.redone(), self.steps.redo)
        else:
            self._reopened(f"Done again: {self.files.on(self.today())}.")

    @one_at_a_time
    def all_back(self) -> None:
        """Take every change back, as one step."""
        if self.steps.now or self.here is not self.base:
            self.steps.step(())
            self._stand(None)

    def _go_to(self, state: State, step: Callable[[], object]) -> None:
        """Take a step to a state, if its season can be made, and look for its plan."""
        changed = self._season(state)
        step()
        self._stand(changed)

    def _season(self, state: State) -> ChangedSeason | None:
        if not state:
            return None
        edits = tuple(made.edit for made in state)
        origin = Origin("the page", labels=tuple(map(refused_words, edits)))
        if self.base.there is not None:
            given = GivenChanges(Changes(name="changed", edits=edits), origin)
            check_edits_ahead(given, self.base.there)
        return changed_season(self.loaded, "changed", edits, origin)

    def _stand(self, changed: ChangedSeason | None) -> None:
        """Make a changed season the one on the page, and look for its plan."""
        self.changed, self.clash, self.answer = changed, None, None
        self.asker.stop()
        self.saving, self._again, self.trouble = False, AGAIN, ""
        known = self._known.get(self._key())
        if changed is None:
            self.here = self.base
        else:
            self.here = known or self.base.changed(changed.loaded, changed.rules)
        self._moved()
        if self.here.plan is not None and not self.here.provisional:
            self.solver.stop()
            self.tell("As on file." if changed is None else "")
        else:
            self._search()

    def _key(self) -> tuple[str, ...]:
        return tuple(edit.model_dump_json() for edit in self.steps.edits)

    def planned_steps(self) -> list[tuple[int, SeasonSide, ChangedSeason | None]]:
        """Return how many of the changes stand, and the season with them, wherever a plan is known.

        The season on file, without any, comes first.
        """
        key = self._key()
        found: list[tuple[int, SeasonSide, ChangedSeason | None]] = [(0, self.base, None)]
        for count in range(1, len(key) + 1):
            side = self._known.get(key[:count])
            if side is not None and side.plan is not None and not side.provisional:
                found.append((count, side, self._seasons.get(key[:count])))
        return found

    # --- searching ----------------------------------------------------------------------------

    def _search(self) -> None:
        self.solver.start(self.here.job(self.settings, self.base.plan))
        self.tell("")

    @one_at_a_time
    def prove(self) -> None:
        """Search on from the plan shown until no better one can exist.

        Raises
        ------
        NotNowError
            If there is no plan yet.
        """
        if self.here.plan is None:
            raise NotNowError("There is no plan to prove yet.")
        self._again = AGAIN
        self.solver.start(self.here.job(self.settings.to_the_end(), self.here.plan))
        self.tell("")

    @one_at_a_time
    def stop(self) -> None:
        """End the search that runs."""
        self.saving = False
        if self.solver.progress() is not None:
            self.solver.stop()
            self.tell(SO_FAR if self.here.plan is not None else STOPPED)

    @one_at_a_time
    def go_on(self) -> None:
        """Search again, for the plan that `plan` would give."""
        self._again, self.clash = AGAIN, None
        if self.solver.progress() is None:
            self._search()

    @one_at_a_time
    def _found(self, found: object, final: bool) -> None:
        """Take in what a search came to, or something that can be shown sooner."""
        if isinstance(found, Failed) and self._again:
            self._again -= 1
            self._search()
            return
        if isinstance(found, Planned):
            self._planned(found)
        elif isinstance(found, Clashing):
            self.clash = found
            self.saving = False
        else:
            self.saving = False
            self.trouble = DIED if isinstance(found, Failed) else ""
            self.told = NOT_FOUND if isinstance(found, NotFound) else ""
        self.tell(self.told)
        if final and isinstance(found, Planned):
            self._ended()

    def _planned(self, found: Planned) -> None:
        if self._no_better(found):
            return
        first = self.base.plan is None
        again = self.here is self.base
        made = self.here.planned(found.plan, found.verdict, provisional=found.provisional)
        self.here = made
        if (first and not self.steps.now) or again:
            self.base = made
        self._known[self._key()] = made
        self._seasons[self._key()] = self.changed
        self.told = ""

    def _no_better(self, found: Planned) -> bool:
        """Tell whether a search for a proof has come to less than what is known already."""
        here = self.here
        if here.plan is None or here.provisional:
            return False
        known, now = here.verdict, found.verdict
        poorer = known is not None and (now is None or now.gap > known.gap)
        return found.provisional or poorer

    def _ended(self) -> None:
        """Save what waited for the end of the search, and the first plan of a season folder."""
        first = not self.steps.now and self.files.seen.get(plan_name(self.files), b"") is None
        if not self.saving and not (first and self.files.current is not None):
            return
        try:
            self._write("first plan" if first and not self.saving else "")
        except (NotNowError, InputError) as error:
            self.trouble = str(error)
            self.tell("")

    def tell(self, words: str) -> None:
        """Say something, and let every tab see it."""
        self.told = words
        self.version += 1

    def _moved(self) -> None:
        """Note that what tabs show is no longer what is."""
        self.revision += 1
        self.version += 1

    # --- questions ----------------------------------------------------------------------------

    @one_at_a_time
    def ask(self, job: PageJob) -> None:
        """Begin on a question that takes long; its answer comes with the state."""
        self.answer = None
        self.asker.start(job)
        self.version += 1

    @one_at_a_time
    def ask_no_more(self) -> None:
        """Give up the question that is worked on."""
        self.asker.stop()
        self.version += 1

    @one_at_a_time
    def _answered(self, found: object, final: bool) -> None:
        self.answer = found
        self.version += 1

    # --- alternatives -------------------------------------------------------------------------

    @one_at_a_time
    def keep(self, name: str) -> None:
        """Put what is shown aside under a name."""
        if self.here.plan is None:
            raise NotNowError("There is no plan to keep yet.")
        name = " ".join(name.split())[:60] or f"Version {len(self.kept) + 1}"
        self.kept = [each for each in self.kept if each.name != name]
        self.kept.append(Kept(name, self.steps.now, self.changed, self.here))
        self.version += 1

    @one_at_a_time
    def forget(self, name: str) -> None:
        """Put a version that was kept away."""
        self.kept = [each for each in self.kept if each.name != name]
        self.version += 1

    @one_at_a_time
    def use(self, name: str) -> None:
        """Come back to a version that was kept."""
        found = next((each for each in self.kept if each.name == name), None)
        if found is None:
            raise NotNowError("That version is no longer there.")
        self.steps.step(found.state)
        self._stood(found.changed, found.side)

    @one_at_a_time
    def take_plan(self, side: SeasonSide) -> None:
        """Make another plan of the season as it is the one on the page."""
        self._stood(self.changed, side)

    def _stood(self, changed: ChangedSeason | None, side: SeasonSide) -> None:
        self.solver.stop()
        self.changed, self.here, self.clash, self.answer = changed, side, None, None
        self._moved()

    # --- files --------------------------------------------------------------------------------

    @property
    def can_save(self) -> bool:
        """Tell whether there is a plan that is not on file."""
        return self.here.plan is not None and self.here is not self._filed

    @one_at_a_time
    def save(self) -> None:
        """Write the changed season and its plan, once the search for it has ended.

        Raises
        ------
        NotNowError
            If there is no plan for it, or a file was changed by somebody else.
        InputError
            If a file cannot be written.
        """
        if self.solver.progress() is not None:
            self.saving = True
            self.tell(LATER)
            return
        if self.here.plan is None:
            raise NotNowError("There is no plan for these changes; take some back, or go on.")
        self._write("")

    def _folder(self, kept: str) -> Folder:
        """Return the season's folder, in which something ``kept`` stands."""
        folder = folder_of(self.loaded.path)
        if folder is None:
            raise NotNowError(f"{kept} in a season folder; this stands alone.")
        return folder

    def _write(self, words: str) -> None:
        """Write, and go on from what now stands on file."""
        document = self.here.document
        assert document is not None
        made = changed_files(self.loaded, self.steps.edits, self.files)
        made[plan_name(self.files)] = plan_bytes(document)
        said = words or "; ".join(map(edit_words, self.steps.edits)) or "another plan"
        self.files.write(made, said)
        so_far = SAVED_SO_FAR if self.here.provisional else ""
        self._reopened(f"Saved {', '.join(made)}.{so_far}")

    @one_at_a_time
    def take_in(self) -> None:
        """Read the files again, and make the changes anew on what they say now."""
        edits = self.steps.edits
        self._reopened("Read again from the files.")
        if edits:
            try:
                self.edit(edits, sure=True)
            except (InputError, NotNowError) as error:
                self.trouble = f"Your changes do not fit what is on file now: {error}"
                self.tell("")

    @one_at_a_time
    def record(self, cells: Mapping[str, str]) -> None:
        """Write down what was done on a day; changes that stand are made anew after it.

        Raises
        ------
        InputError
            If it cannot be used.
        NotNowError
            If the season has no folder to keep it in.
        """
        folder = self._folder("What was done is kept")
        self.files.check()
        record(folder, self.loaded, cells, self.today(), "the record")
        self.take_in()
        self.tell("Recorded; the plan goes on from what was done.")

    @one_at_a_time
    def enter(self, cells: Mapping[str, str]) -> None:
        """Write down who may train from when; the squad's plan stays as it is.

        Raises
        ------
        InputError
            If it cannot be used.
        NotNowError
            If the season has no folder to keep it in.
        """
        folder = self._folder("Availability is kept")
        enter(folder, self.loaded, cells)
        self.tell("Entered; cards and the days of the week go by it from now on.")

    @one_at_a_time
    def enlist(self, lines: str, file: str) -> None:
        """Add athletes to the squad, or put a whole file in its place; the plan stays as it is.

        Raises
        ------
        InputError
            If a line or the file cannot be used.
        NotNowError
            If the season has no folder to keep it in.
        """
        folder = self._folder("The squad is kept")
        if file:
            count = take_squad(folder, self.loaded, file)
        else:
            count = enlist(folder, self.loaded, lines)
        self.tell(f"Entered: {counted(count, 'athlete')} in the squad.")

    @one_at_a_time
    def place(self, week: int, holds: Sequence[DayHold]) -> None:
        """Ask that sessions of a week (from 1) lie on other days; none lets all of them go.

        Raises
        ------
        InputError
            If the file of what is asked cannot be used.
        NotNowError
            If the season has no folder to keep it in, or no such week.
        """
        folder = self._folder("Days are kept")
        if not 1 <= week <= len(self.loaded.season.weeks):
            raise NotNowError(f"There is no week {week}.")
        kept = asked_of(self.loaded)
        stands = kept.get(index_of(week), ())
        asked = {**kept, index_of(week): over(stands, holds) if holds else ()}
        keep_asked(folder, self.loaded, asked, f"week {week}")
        for side in {id(side): side for side in (self.base, self.here)}.values():
            side.days.clear()
        self.tell(f"Kept: the days of week {week} are laid out anew.")

    @one_at_a_time
    def restore(self, number: int) -> None:
        """Put a version of the history in force."""
        self.files.restore(number, self.today())
        self._reopened(f"Version {number} is in force again.")

    def _reopened(self, words: str) -> None:
        self.solver.stop()
        before = self.files
        opened = open_season(self.loaded.path, self.today())
        self._begin(opened)
        self.files.follow(before)
        self.tell(" ".join(part for part in (words, opened.words) if part))
