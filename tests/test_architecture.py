"""Which part may import which."""

import ast
import importlib.util
import re
import sys
from pathlib import Path

import pytest

from constraints import CATALOGUE

ROOT = Path(__file__).parents[1]
OURS = ("optimiser", "constraints", "cli")

TESTS = Path(__file__).parent


def modules(package: str) -> list[Path]:
    return sorted((ROOT / package).rglob("*.py"))


def imported(path: Path) -> set[str]:
    names = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path} has a relative import"
            names.add(node.module or "")
    return names


def starts(names: set[str], *packages: str) -> set[str]:
    return {n for n in names if any(n == p or n.startswith(p + ".") for p in packages)}


@pytest.mark.parametrize("path", modules("optimiser"), ids=lambda path: path.stem)
def test_the_optimiser_knows_neither_rules_nor_commands(path):
    assert starts(imported(path), "constraints", "cli") == set()


@pytest.mark.parametrize("path", modules("constraints"), ids=lambda path: path.stem)
def test_rules_know_no_commands_and_no_solver(path):
    above = ("cli", "ortools", "highspy", "optimiser.engine", "optimiser.joint_model.solve")

    assert starts(imported(path), *above) == set()


@pytest.mark.parametrize("path", modules("optimiser/domain"), ids=lambda path: path.stem)
def test_the_domain_imports_pydantic_and_the_standard_library_only(path):
    allowed = {"pydantic", *sys.stdlib_module_names}
    outside = {
        name
        for name in imported(path)
        if name.split(".")[0] not in allowed and not starts({name}, "optimiser.domain")
    }

    assert outside == set()


@pytest.mark.parametrize("path", modules("optimiser/board"), ids=lambda path: path.stem)
def test_the_board_knows_no_rule_and_no_solver(path):
    names = imported(path)

    assert starts(names, "optimiser.rule", "optimiser.engine", "ortools", "highspy") == set()


@pytest.mark.parametrize("path", modules("cli/commands"), ids=lambda path: path.stem)
def test_commands_leave_arithmetic_and_solvers_to_others(path):
    assert starts(imported(path), "ortools", "highspy", "numpy") == set()


def test_the_help_of_the_command_line_loads_nothing_heavy():
    heavy = {"ortools", "numpy", "pydantic", "highspy", "matplotlib", "joblib"}

    assert {name.split(".")[0] for name in imported(ROOT / "cli/main.py")} & heavy == set()


@pytest.mark.parametrize("path", modules("tests/benchmarks"), ids=lambda path: path.stem)
def test_benchmarks_find_what_they_import(path, monkeypatch):
    """They are run by hand alone, so that nothing else would tell."""
    for room in (TESTS, *(TESTS / name for name in ("days", "optimum", "joint_model"))):
        monkeypatch.syspath_prepend(str(room))
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module:
            module = importlib.import_module(node.module)
            for name in node.names:
                known = hasattr(module, name.name)
                assert known or importlib.util.find_spec(f"{node.module}.{name.name}"), name.name


#: Names of rules that are words of a file's format too: kinds of breaks and edits, and what a
#: lighter week is called.
ALSO_WORDS = {"rest", "pin", "deload", "taper"}


def test_no_rule_is_known_by_its_name_outside_its_room():
    """What is special about a rule stands in its own file, where others ask for it."""
    found = [
        f"{path.relative_to(ROOT)}:{node.lineno} {word}"
        for path in (*modules("optimiser"), *modules("cli"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        for word in _names_of_rules(node)
    ]

    assert found == []


def _names_of_rules(node: ast.AST) -> set[str]:
    """Return the rules a constant names, or a rule's name is compared with."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return {node.value} & (set(CATALOGUE) - ALSO_WORDS)
    if not isinstance(node, ast.Compare):
        return set()
    sides = [node.left, *node.comparators]
    asked = any(isinstance(side, ast.Attribute) and side.attr in ("rule", "name") for side in sides)
    words = {side.value for side in sides if isinstance(side, ast.Constant)}
    return words & set(CATALOGUE) if asked else set()


#: Names that stand more than once, by what the one idea is.
ONE_IDEA = {
    "a command, what it works out, and how that is told": (
        "audit batch care cards clash club club_seasons congest fit given_up groups league limits "
        "plan prices replan report rules season sweep versions week whatif why"
    ),
    "what something is, and how it is read from or written to a person's file": (
        "attendance mend rule_sets squad"
    ),
    "from a season to its plan: for one, and for groups": "solve",
    "team practice: in a phase, and on the days of a week": "practice",
}
ONE_FUNCTION = {
    "read_scenario": "the library reads a scenario, the commands what belongs to it besides",
    "total": "the sum of terms of a model: of whole numbers for the season, of CP-SAT's for days",
}


#: Options spelt alike that are not one idea.
OTHER_THINGS = {
    "--band": "what was done, and what is asked about",
    "--name": "of a season, and of a version",
}


def test_an_option_is_declared_once():
    """One that several commands have stands in ``cli/options.py``, words and all."""
    seen: dict[tuple[str, ...], list[str]] = {}
    for path in modules("cli"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == "click.option":
                place = f"{path.relative_to(ROOT)}:{node.lineno}"
                seen.setdefault(_declared(node), []).append(place)

    twice = {key[0]: places for key, places in seen.items() if len(places) > 1}
    assert {name: each for name, each in twice.items() if name not in OTHER_THINGS} == {}


def _declared(call: ast.Call) -> tuple[str, ...]:
    """Return how an option is spelt and what it takes, whatever its words and its name inside."""
    spelt = [
        arg.value
        for arg in call.args
        if isinstance(arg, ast.Constant) and str(arg.value).startswith("-")
    ]
    inside = ("help", "default", "show_default", "callback", "metavar")
    kind = [ast.unparse(each) for each in call.keywords if each.arg not in inside]
    return (" ".join(map(str, spelt)) or ast.unparse(call.args[0]), *sorted(kind))


#: A week counted as people do, or back: ``week + 1``, ``limit.week + 1``, ``week.index + 1``.
COUNTED = re.compile(r"\bweek(?:\.index|\.week)? [+-] 1\b")
#: Weeks next to another, which are no numbers.
NEXT = re.compile(r"\[[^]]*\bweek [+-] 1|range\([^)]*\bweek [+-] 1")


@pytest.mark.parametrize("path", modules("cli"), ids=lambda path: path.stem)
def test_weeks_are_counted_from_one_in_one_place(path):
    lines = path.read_text(encoding="utf-8").splitlines()

    assert [line for line in lines if COUNTED.search(line) and not NEXT.search(line)] == []


def test_no_two_modules_of_one_name_unless_they_are_one_idea():
    names = [path.stem for package in OURS for path in modules(package)]

    twice = {name for name in names if names.count(name) > 1} - {"__init__", "__main__"}
    assert twice == set(" ".join(ONE_IDEA.values()).split())


def at_the_top(kind: type[ast.FunctionDef | ast.ClassDef]) -> list[str]:
    """Return the names of what modules define, once for each definition."""
    return [
        node.name
        for package in OURS
        for path in modules(package)
        for node in ast.parse(path.read_text(encoding="utf-8")).body
        if isinstance(node, kind)
    ]


def test_no_two_public_functions_of_one_name_unless_they_are_one_idea():
    names = [name for name in at_the_top(ast.FunctionDef) if not name.startswith("_")]

    assert {name for name in names if names.count(name) > 1} == set(ONE_FUNCTION)


def test_no_two_classes_of_one_name():
    names = at_the_top(ast.ClassDef)

    assert sorted(name for name in set(names) if names.count(name) > 1) == []
