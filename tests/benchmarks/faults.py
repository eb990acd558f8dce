"""Faults to plant, each with the tests that are to notice it."""

from typing import NamedTuple


class Fault(NamedTuple):
    """One change: in ``file`` the first ``old`` becomes ``new``; ``tests`` are to notice it."""

    file: str
    tests: tuple[str, ...]
    old: str
    new: str


def of_rule(rule: str, old: str, new: str) -> Fault:
    """Return a fault of a rule, for its own tests and its part of those of all rules."""
    own = f"tests/constraints/test_{rule}.py"
    shared = f"tests/constraints/test_all_rules.py -k {rule}"
    return Fault(f"constraints/{rule}.py", (own, shared), old, new)


COST = (
    "tests/joint_model/test_whole_season.py tests/optimum/test_second_whole_model.py",
    "tests/optimum/test_what_changes_nothing.py tests/joint_model/test_plan_tells.py",
)
WANTED = ("tests/setup", "tests/optimum/test_second_whole_model.py", *COST)
LIKE = ("tests/joint_model/test_like.py",)
READINESS = (
    "tests/response/test_outside.py tests/response/test_surplus.py tests/response/test_scale.py",
    "tests/evidence/test_response.py",
    "tests/groups/test_match_gain.py",
    "tests/optimum/test_second_whole_model.py tests/setup/test_events.py",
)
FITTED = ("tests/response",)
SCORE = ("tests/review",)
TARGETS = ("tests/setup/test_targets.py",)


def of_card(part: str, tests: str, old: str, new: str) -> Fault:
    """Return a fault of what makes cards, for some tests of the athlete's room."""
    named = " ".join(f"tests/athlete/test_{name}.py" for name in tests.split())
    return Fault(f"optimiser/athlete/{part}.py", (named,), old, new)


RULES = (
    of_rule("blocks", "arc.length > self.longest + spare", "arc.length > self.longest + spare + 1"),
    of_rule("blocks", "len(block) - self.longest,", "len(block) - self.longest - 1,"),
    of_rule("progression", "base(index, low, rung - most, layer)", "base(index, low, rung, layer)"),
    of_rule("progression", "if last == week - 1:", "if last == week - 2:"),
    of_rule("progression", "scaled(before, -100 - self.volume_rise)", "scaled(before, -100)"),
    of_rule("deload", 'arc.start if self.where == "first"', 'arc.start if self.where == "last"'),
    of_rule("deload", "crowd_of(season, week) > 1 or", "crowd_of(season, week) > 2 or"),
    of_rule("deload", "if arc.length > 1:", "if arc.length > 2:"),
    of_rule("deload", "cap = most * self.of_full // 100", "cap = most * self.percent // 100"),
    of_rule("deload", "busy[week] >= 2", "busy[week] >= 3"),
    of_rule("deload", "if (last + 1) % self.every == 0", "if last % self.every == 0"),
    of_rule("taper", "percents[week] = min(percent", "percents[week] = max(percent"),
    of_rule("taper", "over = self.apart - gap -", "over = self.apart - gap + 1 -"),
    of_rule("taper", "if week + ahead in season", "if week + ahead + 1 in season"),
    of_rule("taper", "for rung in range(1 + spare,", "for rung in range(2 + spare,"),
    of_rule("taper", "after - before <= self.same_peak", "after - before < self.same_peak"),
    of_rule("taper", "scaled(then, -self.sessions)", "scaled(then, -100 + self.sessions)"),
    of_rule("session_caps", "scaled(count, -longest)", "scaled(count, -longest - 5)"),
    of_rule("session_caps", "filled * (longest - last), tag", "filled * (longest - last) - 5, tag"),
    of_rule("congestion", "crowd if crowd < 3 else 3", "crowd if crowd < 2 else 2"),
    of_rule("congestion", "day - 3 <= d <= day + 3", "day - 2 <= d <= day + 3"),
    of_rule("congestion", "bisect_right(played, day + 3)", "bisect_right(played, day + 2)"),
    of_rule("load_ramp", "scaled(own, -share)", "scaled(own, -share - 1)"),
    of_rule("load_ramp", "[-4:]", "[-3:]"),
    of_rule("phase_load", "-theirs) for week in before", "-ours) for week in before"),
    of_rule("phase_load", "week.phase is Phase.PRE", "week.phase is not Phase.IN"),
    of_rule("exposure", "len(counted) - gap + 1", "len(counted) - gap"),
    of_rule("exposure", "without >= gap", "without > gap"),
    of_rule("reentry", "range(top, len(", "range(top + 1, len("),
    of_rule("foundation", "past >= rung - 1", "past >= rung"),
    of_rule("foundation", "if needed > len(past):", "if needed >= len(past):"),
    of_rule("retesting", "-self.after < (match - day).days", "-self.before < (match - day).days"),
    of_rule("retesting", "since < self.weeks or", "since <= self.weeks or"),
    of_rule("revisit", "peaks[-1] - self.clear + 1", "peaks[-1] - self.clear"),
    of_rule("revisit", "len(block) >= self.weeks", "len(block) > self.weeks"),
    of_rule("budget", "if most <= ceiling + spare:", "if most <= ceiling + spare + 9:"),
    of_rule("rest", "limit + self.free(week), tag", "limit + 1 + self.free(week), tag"),
    of_rule("pin", "at_least(below, int(dose)", "at_least(below, int(dose) - 1"),
    of_rule("spacing", "most = each + self", "most = each + 1 + self"),
    of_rule("spacing", "most = room.load + self", "most = room.both + self"),
)
OBJECTIVE = (
    Fault(
        "optimiser/joint_model/cost.py",
        COST,
        "- round(rates.below * UNITS)\n",
        "+ round(rates.below * UNITS)\n",
    ),
    Fault("optimiser/joint_model/cost.py", COST, "max(0, goal - ready)", "max(0, ready - goal)"),
    Fault("optimiser/joint_model/cost.py", COST, "row[: week.index + 1]", "row[: week.index]"),
    Fault("optimiser/joint_model/cost.py", COST, "(len(quality.bands) - 1)", "len(quality.bands)"),
    Fault("optimiser/joint_model/cost.py", COST, "off * quality.weight", "off"),
    Fault("optimiser/joint_model/cost.py", COST, "off += rates.far", "off += 0"),
    Fault("optimiser/joint_model/cost.py", COST, "min(2, row[week])", "min(3, row[week])"),
    Fault("optimiser/joint_model/cost.py", COST, "in block[2:]", "in block[1:]"),
    Fault(
        "optimiser/joint_model/cost.py",
        COST,
        "abs(len(block) - rates.usual_block)",
        "max(0, len(block) - rates.usual_block)",
    ),
    Fault("optimiser/joint_model/cost.py", COST, "rule.price * breach.excess", "rule.price"),
    Fault("optimiser/joint_model/cost_rows.py", COST, " - rates.tolerance", ""),
    Fault(
        "optimiser/joint_model/cost_rows.py",
        COST,
        "odd = abs(arc.length - rates.usual_block)",
        "odd = max(0, rates.usual_block - arc.length)",
    ),
    Fault("optimiser/joint_model/cost_rows.py", COST, "1 + (1 + rates.far)", "1 + rates.far"),
    Fault("optimiser/joint_model/cost_rows.py", COST, "offset += table[0]", "offset += table[1]"),
    Fault("optimiser/joint_model/cost_rows.py", COST, "in (week, week - 1)}", "in (week,)}"),
    Fault(
        "optimiser/joint_model/cost_rows.py",
        COST,
        "{before: 1, now: -1, change: -1, **fresh}, 0)",
        "{before: 1, now: -1, change: -1, **fresh}, 1)",
    ),
    Fault("optimiser/joint_model/cost_rows.py", COST, "UNITS) - outside\n", "UNITS)\n"),
    Fault("optimiser/joint_model/ready_terms.py", COST, "past <= week", "past < week"),
    Fault(
        "optimiser/joint_model/like.py", LIKE, "len(here.fixtures) < 2", "len(here.fixtures) < 3"
    ),
    Fault("optimiser/joint_model/verdict.py", COST, "sound = clean and agrees", "sound = agrees"),
    Fault("optimiser/joint_model/verdict.py", COST, "found.bound <= cost and ", ""),
    Fault("optimiser/setup/amounts.py", WANTED, "if ahead == 1:", "if ahead == 2:"),
    Fault(
        "optimiser/setup/amounts.py", WANTED, "0 < week - peak <= AFTER", "0 < week - peak < AFTER"
    ),
    Fault("optimiser/setup/amounts.py", WANTED, "len(span) >= GAP", "len(span) > GAP"),
    Fault("optimiser/setup/amounts.py", WANTED, "curve.late - curve.early", "curve.late"),
    Fault("optimiser/domain/rates.py", WANTED, "max(own, default", "min(own, default"),
    Fault(
        "optimiser/setup/targets.py", TARGETS, "climb.weeks + 1 if climb", "climb.weeks if climb"
    ),
    Fault(
        "optimiser/setup/targets.py", TARGETS, "week + 1] - settings.rise", "week] - settings.rise"
    ),
)
RESPONSE = (
    Fault("optimiser/response/readiness.py", READINESS, "np.exp(-7.0", "np.exp(-6.5"),
    Fault("optimiser/response/readiness.py", READINESS, "if since <= 0:", "if since < 0:"),
    Fault(
        "optimiser/response/readiness.py", READINESS, "list(reversed(Priority))", "list(Priority)"
    ),
    Fault(
        "optimiser/response/readiness.py",
        READINESS,
        "doses.touch.gain, doses.reduced.gain",
        "doses.reduced.gain, doses.touch.gain",
    ),
    Fault(
        "optimiser/response/readiness.py",
        READINESS,
        "(Dose.REDUCED, Dose.TOUCH)",
        "(Dose.TOUCH, Dose.REDUCED)",
    ),
    Fault("optimiser/response/readiness.py", READINESS, "lags + 1)", "lags)"),
    Fault(
        "optimiser/response/readiness.py",
        READINESS,
        "fitness - season.fatigue_scale * quality",
        "fitness - quality",
    ),
    Fault(
        "optimiser/response/readiness.py", READINESS, "max(event.first, week.monday)", "event.first"
    ),
    Fault(
        "optimiser/response/readiness.py",
        READINESS,
        "season.travel_fatigue * fixture.travel_hours",
        "0 * fixture.travel_hours",
    ),
    Fault(
        "optimiser/response/readiness.py",
        READINESS,
        "each.gain * decay(quality.tau_fitness",
        "each.gain * decay(quality.tau_fatigue",
    ),
    Fault("optimiser/review/score.py", SCORE, "Priority.MEDIUM: 2", "Priority.MEDIUM: 1"),
    Fault("optimiser/review/score.py", SCORE, "min(100.0, 100 * ready", "min(200.0, 100 * ready"),
    Fault(
        "optimiser/review/score.py",
        SCORE,
        "start = fitness * fit + give, fatigue * tired + take, start * fit",
        "start = fitness * fit + give, fatigue * tired + take, start * tired",
    ),
    Fault("optimiser/review/audit.py", SCORE, "if sessions > pieces:", "if sessions > pieces + 1:"),
)
CARD = (
    of_card("minutes", "minutes sessions", "max(0.0, _rest(item) - CHANGE_S)", "0.0"),
    of_card("minutes", "minutes sessions", "sides = 2 if", "sides = 1 if"),
    of_card("minutes", "minutes sessions", "item.percent[0] - BELOW", "item.percent[0] + BELOW"),
    of_card(
        "volume", "held coming_back youth", "if left < SHORTEST_RUN:", "if left <= SHORTEST_RUN:"
    ),
    of_card("volume", "held coming_back youth", "top -= SPEED_STEP", "top -= 2 * SPEED_STEP"),
    of_card(
        "volume", "held coming_back youth", "asked.index(max(asked))", "asked.index(min(asked))"
    ),
    of_card("allowed", "coming_back cards youth", "rung >= hold.rung", "rung > hold.rung"),
    of_card(
        "allowed", "coming_back cards youth", ") < YOUNG_PERCENT for", ") <= YOUNG_PERCENT for"
    ),
    of_card("allowed", "coming_back cards youth", "hold.jumps < (2 if", "hold.jumps < (1 if"),
    of_card("hold", "coming_back", "rung = restart.rung + week", "rung = restart.rung"),
    of_card("hold", "coming_back", "min(open_days, key", "max(open_days, key"),
    of_card("hold", "coming_back", "restart.volume[week] / 100", "restart.volume[0] / 100"),
    of_card(
        "held_items",
        "held coming_back",
        "hold.full_share * full)",
        "hold.full_share * here)",
    ),
    of_card("held_items", "held coming_back", "top = min(hold.speed, fastest)", "top = fastest"),
    of_card("youth", "youth", "min(item.sets, limit.sets)", "item.sets"),
    of_card("youth", "youth", "CONTACTS = 0.6", "CONTACTS = 1.0"),
    of_card("youth", "youth", "Allowed(2, 60.0)", "Allowed(2, 70.0)"),
    of_card("top_up", "top_up", "minutes >= ENOUGH", "minutes > ENOUGH"),
    of_card("top_up", "top_up", "1 - minutes / ENOUGH", "minutes / ENOUGH"),
    of_card("top_up", "top_up", "days=BEFORE - 1", "days=BEFORE - 2"),
    of_card(
        "load_in_block",
        "held",
        "min(block_week, len(STEPS)) - 1",
        "min(block_week, len(STEPS) - 1)",
    ),
    of_card("plates", "plates", "_grams(min(plates)) / 2", "_grams(min(plates)) * 2"),
    of_card("lift_load", "held youth", "pair[1] <= high:", "pair[0] <= high:"),
    of_card(
        "lift_load",
        "held youth",
        "round(reserve_at(heavy, item.reps[1]))",
        "round(reserve_at(light, item.reps[1]))",
    ),
    of_card("sessions", "sessions coming_back held", "hold.speed - BELOW_WORK", "hold.speed"),
    of_card("sessions", "sessions coming_back held", "turn = (part - at) % parts", "turn = part"),
    of_card("sessions", "sessions coming_back held", "minutes + SPARE:", "minutes + 5 * SPARE:"),
    of_card("cards", "sessions cards", "min(1.0, own / planned)", "own / planned"),
    Fault(
        "optimiser/athlete/sled.py",
        ("tests/evidence/test_sled.py",),
        "loss / 100 * zero_load",
        "loss * zero_load / 90",
    ),
    Fault(
        "optimiser/athlete/strength.py",
        ("tests/evidence/test_strength.py",),
        "93.0, 90.0, 87.0",
        "93.0, 87.0, 90.0",
    ),
)
FAULTS = (*RULES, *OBJECTIVE, *RESPONSE, *CARD)
