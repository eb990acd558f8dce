"""The board: every decision of a season as variables, and the ways to speak of them."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from itertools import chain, pairwise

from optimiser.board.model import Model, Terms, scaled, total
from optimiser.board.outline import Arc, Outline
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose, Place
from optimiser.domain.season import Season

#: Most sessions of one kind in a week, when no rule says otherwise.
MOST_SESSIONS = 5
#: Longest session when no rule says otherwise, in minutes.
LONGEST_SESSION = 180


class Board:
    """Decisions of one season.

    Blocks are arcs of a path over the weeks; every quality takes one rung on each block, and one
    dose in each week, written as three flags "at least touch, reduced, full".

    Parameters
    ----------
    outline
        What the rules left open.
    """

    def __init__(self, outline: Outline) -> None:
        self.outline = outline
        self.season: Season = outline.season
        self.model = Model()
        self.arcs: dict[Arc, int] = {}
        self.steps: dict[tuple[int, Arc, int, int, int], int] = {}
        self._starting: dict[tuple[int, int], list[tuple[int, int, int]]] = defaultdict(list)
        self._ending: dict[tuple[int, int], list[tuple[int, int, int]]] = defaultdict(list)
        self._covering: dict[tuple[int, int, int], list[int]] = defaultdict(list)
        self._levels: dict[tuple[int, int, int], int] = {}
        self._sessions: dict[tuple[str, int], int] = {}
        self._minutes: dict[int, int] = {}
        self._load: dict[int, int] = {}
        self._rung_flags: dict[tuple[int, int, int], int] = {}
        self._work: dict[tuple[int, int], dict[int, list[int]]] = {}
        self.one = self.model.var(1, 1, "one")
        self._build()

    # --- building -------------------------------------------------------------------------

    def _build(self) -> None:
        self._build_blocks()
        for quality in range(len(self.season.qualities)):
            self._build_path(quality)
        for week in self.open_weeks():
            self._build_week(week)
        self._build_openings()
        self._post_forbidden()

    def _build_blocks(self) -> None:
        for arc in sorted(self.outline.arcs):
            self.arcs[arc] = self.model.flag(f"block[{arc.start},{arc.length}]")
        for stretch in self.outline.stretches():
            for week in stretch:
                starts = {var: 1 for arc, var in self.arcs.items() if arc.start == week}
                if week == stretch.start:
                    self.model.equal(starts, 1)
                    continue
                ends = {var: -1 for arc, var in self.arcs.items() if arc.stop == week}
                self.model.equal({**starts, **ends}, 0)

    def _build_openings(self) -> None:
        """Make opening a block in a week the decision: blocks are whole once all openings are.

        Searches branch on it, which settles more at once.
        """
        for week in self.open_weeks():
            starts = {var: 1 for arc, var in self.arcs.items() if arc.start == week}
            if len(starts) > 1:
                opens = self.model.flag(f"opens[{week}]")
                self.model.equal({**starts, opens: -1}, 0)
                self.model.implied.update(starts)

    def _build_path(self, quality: int) -> None:
        bands = range(len(self.season.qualities[quality].bands))
        for arc, block in self.arcs.items():
            for rung in bands:
                if all(self.outline.rung_open(quality, week, rung) for week in arc.weeks):
                    self._build_steps(quality, arc, rung)
            taken = dict.fromkeys(self._steps_on(quality, arc), 1)
            self.model.equal({**taken, block: -1}, 0)
        self._join_layers(quality)

    def _steps_on(self, quality: int, arc: Arc) -> list[int]:
        ways = [(0, 0), (0, 1), (1, 1)]
        bands = range(len(self.season.qualities[quality].bands))
        keys = [(quality, arc, rung, into, out) for rung in bands for into, out in ways]
        return [self.steps[key] for key in keys if key in self.steps]

    def _build_steps(self, quality: int, arc: Arc, rung: int) -> None:
        for into, out in self._layers(quality, arc, rung):
            var = self.model.flag(f"rung[{quality},{arc.start},{arc.length},{rung},{into}{out}]")
            self.steps[quality, arc, rung, into, out] = var
            self._starting[quality, arc.start].append((into, rung, var))
            self._ending[quality, arc.stop].append((out, rung, var))
            for week in arc.weeks:
                self._covering[quality, week, rung].append(var)

    def _layers(self, quality: int, arc: Arc, rung: int) -> list[tuple[int, int]]:
        """Return the layers (not yet, done) a block may enter in and leave by."""
        memory = self.outline.memory.get(quality)
        if memory is None:
            return [(0, 0)]
        found = []
        last_start = memory.window.stop - memory.weeks
        if memory.qualifies(arc, rung):
            found.append((0, 1))
        elif arc.stop <= last_start:
            found.append((0, 0))
        if arc.start >= memory.window.start + memory.weeks:
            found.append((1, 1))
        return found

    def _join_layers(self, quality: int) -> None:
        """Carry each quality's layer from block to block, across closed weeks too."""
        if quality not in self.outline.memory:
            return
        stretches = self.outline.stretches()
        joints = [(week, week) for part in stretches for week in part if week != part.start]
        joints += [(a.stop, b.start) for a, b in pairwise(stretches)]
        for before, after in joints:
            for layer in (0, 1):
                leave = {v: -1 for lay, _, v in self._ending[quality, before] if lay == layer}
                enter = {v: 1 for lay, _, v in self._starting[quality, after] if lay == layer}
                if leave or enter:
                    self.model.equal({**leave, **enter}, 0)
        first, last = stretches[0].start, stretches[-1].stop
        for lay, _, var in self._starting[quality, first]:
            if lay:
                self.model.fix(var, 0)
        for lay, _, var in self._ending[quality, last]:
            if not lay:
                self.model.fix(var, 0)

    def _build_week(self, week: int) -> None:
        for quality in range(len(self.season.qualities)):
            flags = [self.model.flag(f"dose[{quality},{week},{least}]") for least in (1, 2, 3)]
            for least, var in zip((1, 2, 3), flags, strict=True):
                self._levels[quality, week, least] = var
            self.model.at_most({flags[1]: 1, flags[0]: -1}, 0)
            self.model.at_most({flags[2]: 1, flags[1]: -1}, 0)
        for place in ("field", "gym"):
            self._build_sessions(place, week)
        self._build_sums(week)

    def _build_sessions(self, place: Place, week: int) -> None:
        """Tie sessions to the work in them: none without work, no work without one."""
        here = [i for i, q in enumerate(self.season.qualities) if q.place == place]
        count = self.model.var(0, MOST_SESSIONS, f"{place}[{week}]")
        self._sessions[place, week] = count
        pieces = total({self._levels[q, week, 1]: -1, self._levels[q, week, 2]: -1} for q in here)
        self.model.at_most({count: 1, **pieces}, 0)
        for quality in here:
            self.model.at_most({self._levels[quality, week, 1]: 1, count: -1}, 0)
        work = total(self.minutes_of(quality, week) for quality in here)
        self.model.at_most({**work, count: -LONGEST_SESSION}, 0)

    def _build_sums(self, week: int) -> None:
        qualities = range(len(self.season.qualities))
        for store, of, most in (
            (
                self._minutes,
                self.minutes_of,
                sum(q.most_minutes for q in self.season.qualities),
            ),
            (self._load, self.load_of, sum(q.most_load for q in self.season.qualities)),
        ):
            name = "minutes" if store is self._minutes else "load"
            var = store[week] = self.model.var(0, most, f"{name}[{week}]")
            # else searches branch on the sum and not on what it is a sum of
            self.model.implied.add(var)
            parts = total(of(quality, week) for quality in qualities)
            self.model.equal({**parts, var: -1}, 0)

    def _post_forbidden(self) -> None:
        """Post what the outline kept because it has a price or is to be argued about."""
        for arc, tags in self.outline.arcs.items():
            for tag, size in tags:
                self.model.at_most({self.arcs[arc]: size}, 0, tag)
        for (quality, week, rung), rung_tags in self.outline.rungs.items():
            if self.outline.rung_open(quality, week, rung):
                for tag, size in rung_tags:
                    self.model.at_most(scaled(self.rung(quality, week, rung), size), 0, tag)

    # --- speaking -------------------------------------------------------------------------

    def open_weeks(self) -> list[int]:
        """Return the weeks in which anything can be chosen."""
        return [week for stretch in self.outline.stretches() for week in stretch]

    def rung(self, quality: int, week: int, rung: int) -> Terms:
        """Return 1 if the quality stands on ``rung`` in ``week``.

        Where everything is argued about, that is one variable: rows stay short, as many more are
        asked about than are searched through.
        """
        if self.outline.soft:
            return {self.rung_flag(quality, week, rung): 1}
        return dict.fromkeys(self._covering[quality, week, rung], 1)

    def rung_from(self, quality: int, week: int, rung: int) -> Terms:
        """Return 1 if the quality stands on ``rung`` or above."""
        bands = range(max(0, rung), len(self.season.qualities[quality].bands))
        if self.outline.soft:
            return {self.rung_flag(quality, week, above): 1 for above in bands}
        found = (self._covering[quality, week, above] for above in bands)
        return dict.fromkeys(chain.from_iterable(found), 1)

    def rung_flag(self, quality: int, week: int, rung: int) -> int:
        """Return one variable for ``rung``; made when first asked for."""
        key = (quality, week, rung)
        if key not in self._rung_flags:
            var = self.model.flag(f"at[{quality},{week},{rung}]")
            covering = dict.fromkeys(self._covering[quality, week, rung], 1)
            self.model.equal({**covering, var: -1}, 0)
            self._rung_flags[key] = var
        return self._rung_flags[key]

    def rung_flags(self) -> frozenset[int]:
        """Return the variables made for single rungs; the rows that make them bind nothing else."""
        return frozenset(self._rung_flags.values())

    def at_least(self, quality: int, week: int, least: int) -> Terms:
        """Return 1 if the dose is ``least`` or more."""
        return {self._levels[quality, week, int(least)]: 1}

    def layers(self, quality: int) -> tuple[int, ...]:
        """Return the layers of a quality's path."""
        return (0, 1) if quality in self.outline.memory else (0,)

    def leaving(self, quality: int, week: int, rung: int, layer: int) -> Terms:
        """Return 1 if a block at ``rung`` or above ends just before ``week``."""
        found = self._ending[quality, week]
        return {var: 1 for lay, at, var in found if lay == layer and at >= rung}

    def entering(self, quality: int, week: int, rung: int, layer: int) -> Terms:
        """Return 1 if a block at ``rung`` or above starts in ``week``."""
        found = self._starting[quality, week]
        return {var: 1 for lay, at, var in found if lay == layer and at >= rung}

    def sessions(self, place: Place, week: int) -> Terms:
        """Return the sessions of one kind in a week."""
        return {self._sessions[place, week]: 1}

    def all_sessions(self, week: int) -> Terms:
        """Return the sessions of a week."""
        return {self._sessions["field", week]: 1, self._sessions["gym", week]: 1}

    def minutes_of(self, quality: int, week: int) -> Terms:
        """Return the minutes of one quality in a week."""
        return self._by_work(quality, week, self.season.qualities[quality].minutes)

    def load_of(self, quality: int, week: int) -> Terms:
        """Return the load of one quality in a week, in AU."""
        return self._by_work(quality, week, self.season.qualities[quality].load)

    def _by_work(self, quality: int, week: int, value: Callable[[Dose, int], int]) -> Terms:
        bands = range(len(self.season.qualities[quality].bands))
        table = [[value(dose, rung) for dose in Dose] for rung in bands]
        if all(row == table[0] for row in table):
            return {
                self._levels[quality, week, least]: table[0][least] - table[0][least - 1]
                for least in (1, 2, 3)
            }
        work = self.work(quality, week)
        return {
            var: table[rung][dose]
            for rung, made in work.items()
            for dose, var in enumerate(made, 1)
        }

    def work(self, quality: int, week: int) -> dict[int, list[int]]:
        """Return by rung the variables of touch, reduced and full on it; made when first asked for.

        What depends on both is linear in them. Doses are whole as soon as they are: searches branch
        on work, which settles more at once.
        """
        if (quality, week) not in self._work:
            self._work[quality, week] = self._made_work(quality, week)
        return self._work[quality, week]

    def _made_work(self, quality: int, week: int) -> dict[int, list[int]]:
        found: dict[int, list[int]] = {}
        for rung in range(len(self.season.qualities[quality].bands)):
            if cover := self.rung(quality, week, rung):
                names = [f"work[{quality},{week},{rung},{dose}]" for dose in (1, 2, 3)]
                made = found[rung] = [self.model.flag(name) for name in names]
                self.model.at_most({**dict.fromkeys(made, 1), **scaled(cover, -1)}, 0)
        for least in (1, 2, 3):
            # at all bands together there is as much work as the dose says
            here = {var: 1 for made in found.values() for var in made[least - 1 :]}
            self.model.equal({**here, self._levels[quality, week, least]: -1}, 0)
            self.model.implied.add(self._levels[quality, week, least])
        return found

    def minutes(self, week: int) -> Terms:
        """Return the minutes of all qualities in a week."""
        return {self._minutes[week]: 1}

    def load(self, week: int) -> Terms:
        """Return the load of all qualities in a week, in AU."""
        return {self._load[week]: 1}

    # --- reading and pinning --------------------------------------------------------------

    def read(self, values: Sequence[int]) -> Plan:
        """Return the plan that a solution stands for.

        Parameters
        ----------
        values
            One value a variable of ``model``.
        """
        weeks, qualities = len(self.season.weeks), len(self.season.qualities)
        rungs: list[list[int | None]] = [[None] * weeks for _ in range(qualities)]
        for (quality, arc, rung, _, _), var in self.steps.items():
            if values[var]:
                for week in arc.weeks:
                    rungs[quality][week] = rung
        doses = [[self._dose(values, q, w) for w in range(weeks)] for q in range(qualities)]
        return Plan(
            starts=tuple(sorted(arc.start for arc, var in self.arcs.items() if values[var])),
            rungs=tuple(map(tuple, rungs)),
            doses=tuple(map(tuple, doses)),
            field=tuple(self._count(values, "field", week) for week in range(weeks)),
            gym=tuple(self._count(values, "gym", week) for week in range(weeks)),
        )

    def _dose(self, values: Sequence[int], quality: int, week: int) -> Dose:
        flags = [self._levels.get((quality, week, least)) for least in (1, 2, 3)]
        return Dose(sum(values[var] for var in flags if var is not None))

    def _count(self, values: Sequence[int], place: Place, week: int) -> int:
        var = self._sessions.get((place, week))
        return 0 if var is None else values[var]

    def pin_doses(self, plan: Plan, weeks: Iterable[int] | None = None) -> None:
        """Fix doses and sessions to those of a plan."""
        for week in self.open_weeks() if weeks is None else weeks:
            for quality, row in enumerate(plan.doses):
                for least in (1, 2, 3):
                    var = self._levels[quality, week, least]
                    self.model.fix(var, int(row[week] >= least))
            self.model.fix(self._sessions["field", week], plan.field[week])
            self.model.fix(self._sessions["gym", week], plan.gym[week])

    def week_choices(self, week: int) -> list[int]:
        """Return the dose and session variables of a week."""
        doses = [
            self._levels[quality, week, least]
            for quality in range(len(self.season.qualities))
            for least in (1, 2, 3)
            if (quality, week, least) in self._levels
        ]
        places = ("field", "gym")
        return doses + [self._sessions[p, week] for p in places if (p, week) in self._sessions]

    def hint(self, plan: Plan) -> dict[int, int]:
        """Return a value for every choice variable that a plan decides."""
        blocks = {Arc(block.start, len(block)) for block in plan.blocks()}
        out = {var: int(arc in blocks) for arc, var in self.arcs.items()}
        for (quality, arc, rung, _, _), var in self.steps.items():
            if arc not in blocks or plan.rungs[quality][arc.start] != rung:
                out[var] = 0
        for (quality, week, least), var in self._levels.items():
            out[var] = int(plan.doses[quality][week] >= least)
        for (place, week), var in self._sessions.items():
            out[var] = plan.field[week] if place == "field" else plan.gym[week]
        return out
