"""What a week's page says of its work, beside the cards of the same week."""

from cli.report.week_work import week_work
from optimiser.athlete.card import week_choices, week_info
from optimiser.athlete.cards import card
from optimiser.athlete.squad import Athlete, Lift


def test_a_weeks_page_has_the_exercises_sets_and_percentages_of_its_cards(small):
    season, plan = small.loaded.season, small.plan
    library, kit = small.library, small.kit
    tested = dict.fromkeys(library.exercises, Lift(one_rm_kg=150))
    who = Athlete(name="A", group="squad", body_mass_kg=75, lifts=tested, plyometrics_ready=True)
    heavy = set()

    for index, week in enumerate(small.document.weeks):
        told = "\n".join(week_work(season, week, library, kit))
        made = card(who, week_choices(season, plan, index), week_info(season, plan, index))
        for line in (line for part in made.sections for line in part.lines):
            words = next(
                each
                for each in told.replace(": ", "; ").replace("\n", "; ").split("; ")
                if each.startswith(f"{line.exercise} {line.sets} x")
            )
            percent = "-".join(f"{share:g}" for share in sorted({*(line.percent or ())}))
            assert words.endswith(f"at {percent} %") if percent else "%" not in words
            heavy |= {percent}

    assert len(heavy) > 4
