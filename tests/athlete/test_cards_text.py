import datetime as dt
import json

import pytest
from card_weeks import choices, week
from hypothesis import given, settings
from hypothesis import strategies as st

from cli.render.cards import card_text, cards_json, cards_text
from cli.render.cards_squad import squad_text
from cli.render.terminal import WIDTH
from optimiser.athlete.card import CardSet, ChosenBand, week_choices, week_info
from optimiser.athlete.cards import card
from optimiser.athlete.care import CARE
from optimiser.athlete.squad import Athlete, Lift, Restriction
from optimiser.domain.fixture import Fixture
from optimiser.domain.plan import Plan
from optimiser.domain.quality import Dose
from optimiser.domain.season import Season, Week
from optimiser.setup.qualities import default_qualities

MONDAY = dt.date(2026, 9, 7)
ADA = Athlete(
    name="Ada Merrow",
    group="starters",
    body_mass_kg=78,
    lifts={"squat": {"one_rm_kg": 140}, "bench_press": {"load_kg": 80, "reps": 5}},
    splits={10: 2.12, 20: 3.40, 30: 4.61},
)


def made(athlete, rung, dose=Dose.FULL):
    return card(athlete, choices(rung, dose), week(dose))


def row(text, words):
    return " ".join(next(line for line in text.splitlines() if words in line).split())


def test_a_card_says_who_when_what_and_how_heavy():
    text = card_text(made(ADA, 2))

    assert text.startswith(
        "Ada Merrow, starters, 78 kg, 2 sessions, 165 min\nWeek 9, 7 Sep to 13 Sep 2026"
    )
    assert "Fixtures: Sat Kew" in text
    assert "Tue 8 Sep, field, MD-4, " in text
    assert "Wed 9 Sep, gym, MD-4, " in text
    assert text.count("Pain, dizziness") == 2
    assert "6 x 20 m 3.40 s 2.5-3 min" in row(text, "6 x 20 m")
    assert "5 x 3 117.5 kg (85 %), leave 3;" in row(text, "117.5 kg")


@settings(max_examples=25)
@given(
    st.text(st.characters(codec="ascii", exclude_categories=["Cc"]), min_size=1, max_size=80),
    st.integers(0, 4),
    st.sampled_from([Dose.TOUCH, Dose.FULL]),
    st.sampled_from(["starters", "returning", "non-playing"]),
    st.lists(st.sampled_from(["knee", "shoulder", "hamstring", "back"]), max_size=2),
    st.booleans(),
)
def test_no_line_is_wider_than_the_page(name, rung, dose, group, tags, young):
    athlete = Athlete(
        name=name,
        group=group,
        body_mass_kg=103.5,
        under_18=young,
        lifts=ADA.lifts,
        splits=ADA.splits,
        restrictions=[{"tag": tag} for tag in tags],
    )

    cards = [made(athlete, rung, dose), made(ADA, rung, dose)]
    for text in (cards_text(cards), squad_text(cards)):
        assert max(map(len, text.splitlines())) <= WIDTH


def test_care_is_said_once_for_many_cards():
    text = cards_text([made(ADA, 2), made(ADA, 3), made(ADA, 4)])

    assert text.count("not a medical device") == 1
    assert text.count("Ada Merrow") == 3
    for words in ("medically cleared", "supervised", "return to play", "pain", "heat"):
        assert words in " ".join(CARE)


def test_thirty_athletes_are_told_their_sessions_once():
    squad = [
        made(
            ADA.model_copy(
                update={"name": f"Player {at}", "lifts": {"squat": Lift(one_rm_kg=100 + at)}}
            ),
            3,
        )
        for at in range(30)
    ]

    text = squad_text(squad)
    assert len(text.splitlines()) < 200
    assert text.count("Brace, knees over toes") == 1
    for at in (0, 14, 29):
        (found,) = [line for line in text.splitlines() if line.startswith(f"Player {at} ")]
        assert f"{squad[at].sections[4].lines[0].kg[0]:g} kg" in found


def test_what_one_athlete_does_instead_stands_below_the_shared_session():
    knee = ADA.model_copy(update={"name": "Bea", "restrictions": (Restriction(tag="knee"),)})

    text = " ".join(squad_text([made(ADA, 2), made(ADA, 2), made(knee, 2)]).split())
    assert "Bea: Maximal strength M3 Threes at 85 %, full" in text
    assert "Deadlift 5 x 3" in text


def test_json_is_the_same_cards_and_reads_back():
    cards = (made(ADA, 2), made(ADA, 4))

    text = cards_json(cards)
    assert CardSet.model_validate_json(text).cards == cards
    assert json.loads(text)["care"] == list(CARE)


def test_three_bands_of_a_users_own_print_in_order(own_ladders, own_work):
    texts = [
        card_text(
            card(
                ADA,
                [ChosenBand(quality=quality, rung=rung, dose=Dose.FULL)],
                week(Dose.FULL, qualities=[quality]),
                own_work,
            )
        )
        for quality in own_ladders.values()
        for rung in range(3)
    ]

    wanted = ["6 x 15 m", "5 x 25 m", "4 x 35 m", "5 x 10 m", "5 x 15 m", "5 x 20 m"]
    wanted += ["3 x 6-8", "4 x 3-5", "5 x 1-3", "4 x 8 each", "3 x 8 each", "2 x 8 each"]
    for words, text in zip(wanted, texts, strict=True):
        assert words in text.split("Load or target")[1]


def test_a_week_without_sessions_says_so():
    closed = card(ADA, (), week(Dose.FULL).model_copy(update={"sessions": ()}))

    assert "No session this week." in squad_text([closed])


def test_an_absent_athlete_has_a_short_card():
    text = card_text(made(ADA.model_copy(update={"unavailable_from": MONDAY}), 2))

    assert text.splitlines()[-1] == "- not available this week"
    assert "Field" not in text


@pytest.mark.parametrize(("index", "days_off", "codes"), [(0, 0, ["S1"]), (3, 14, ["S2"])])
def test_a_card_is_cut_out_of_a_plan(index, days_off, codes):
    sprint, sled, *_ = default_qualities()
    weeks = [
        Week(
            index=at,
            monday=MONDAY + dt.timedelta(days=7 * at),
            phase="pre-season",
            closed=at in (1, 2),
            target=50,
            fixtures=[Fixture(date=MONDAY + dt.timedelta(days=26), opponent="Kew")] * (at == 3),
        )
        for at in range(4)
    ]
    season = Season(name="Trial", weeks=weeks, qualities=(sprint, sled), emphasis=((50,) * 4,) * 2)
    plan = Plan(
        starts=(0, 3),
        rungs=((0, None, None, 1), (0, None, None, 1)),
        doses=((3, 0, 0, 2), (0, 0, 0, 0)),
        field=(2, 0, 0, 1),
        gym=(1, 0, 0, 0),
    )

    info, choices = week_info(season, plan, index), week_choices(season, plan, index)
    found = card(ADA, choices, info)
    assert (info.number, info.days_off) == (index + 1, days_off)
    assert [part.code for part in found.sections] == codes
    assert info.fixtures == (("Sat 03 Oct Kew",) if index == 3 else ())
