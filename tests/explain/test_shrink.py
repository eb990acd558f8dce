from itertools import combinations

import pytest

from optimiser.explain.shrink import in_order, shrink


class Clashes:
    """A world in which given sets clash, and every set around them."""

    def __init__(self, *smallest):
        self.smallest = [frozenset(each) for each in smallest]
        self.asked = 0

    def ask(self, kept):
        self.asked += 1
        for each in self.smallest:
            if each <= set(kept):
                return "clash", sorted(each)
        return "possible", ()

    def ask_plainly(self, kept):
        """Without a core: everything is blamed."""
        verdict, core = self.ask(kept)
        return verdict, list(kept) if core else ()


@pytest.mark.parametrize("ask", ["ask", "ask_plainly"])
@pytest.mark.parametrize(
    "smallest", [["abc"], ["a"], ["ab", "bcd"], ["ace", "bdf", "cd"], ["abcdefgh"]]
)
def test_what_is_left_clashes_and_nothing_less_does(smallest, ask):
    world = Clashes(*smallest)

    found = shrink("abcdefgh", getattr(world, ask))

    assert found.minimal
    assert frozenset(found.members) in world.smallest
    for fewer in combinations(found.members, len(found.members) - 1):
        assert world.ask(fewer)[0] == "possible"


def test_members_of_the_lowest_order_are_acquitted_first():
    world = Clashes("ab", "ac")

    assert shrink("abc", world.ask, order="acb".index).members == ("a", "b")
    assert shrink("abc", world.ask, order="abc".index).members == ("a", "c")


def test_cores_spare_questions():
    plain, quick = Clashes("gh"), Clashes("gh")

    shrink("abcdefgh", plain.ask_plainly)
    shrink("abcdefgh", quick.ask)

    assert (plain.asked, quick.asked) == (8, 3)


def test_an_unanswered_question_leaves_a_set_that_is_only_sufficient():
    world = Clashes("ab")

    def tired(kept):
        return ("unknown", ()) if world.asked >= 2 else world.ask_plainly(kept)

    found = shrink("abcd", tired)

    assert not found.minimal
    assert set("ab") <= set(found.members)


def test_order_of_the_whole_is_kept():
    assert in_order({"c", "a"}, "abc") == ("a", "c")
