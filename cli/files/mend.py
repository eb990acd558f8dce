"""Write a repair into a scenario: comments and layout stay, waivers are added."""

import os
import tomllib
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError

from cli.files.errors import InputError
from cli.files.read_text import read_text
from cli.files.scenario_file import Loaded, load_scenario
from constraints.load import load_rules
from optimiser.domain.breach import Breach
from optimiser.rule import Rule, Waiver

#: A rule's name and one waiver for it.
Given = tuple[str, Waiver]
#: Files a scenario names, looked for beside it.
BESIDE = ("fixtures_file", "squad_file")


def mended_text(loaded: Loaded, given: Sequence[Given], why: Sequence[str], out: Path) -> str:
    """Return the text of the scenario with the waivers in it, fit to stand in ``out``.

    Parameters
    ----------
    why
        Lines for people, written above what is added.

    Raises
    ------
    InputError
        If the scenario is laid out so that nothing can be added to it.
    """
    text = read_text(loaded.path)
    wanted = _wanted(tomllib.loads(text), given)
    for way in (_appended, _inserted):
        told = _tried(way, text, given, why)
        if told is not None and tomllib.loads(told) == wanted:
            return _moved(told, loaded.path, out)
    raise InputError(
        loaded.path,
        "rules",
        "must be tables such as [rules.taper], so that waivers can be added",
        "another layout",
        "write the tables out, or add the waivers by hand",
    )


def check_mended(
    text: str, out: Path, broken_by: Callable[[Sequence[Rule]], Sequence[Breach]]
) -> None:
    """Make sure that the mended scenario reads back, with rules that the plan in hand keeps.

    Parameters
    ----------
    broken_by
        What the plan breaks of some rules.

    Raises
    ------
    InputError
        If not.
    """
    loaded = load_scenario(text, out)
    broken = broken_by(load_rules(loaded.scenario.rules, loaded.season))
    if broken:
        must = "must have the plan that was found for it"
        raise InputError(out, "", must, broken[0].words, "explain the season again")


def _wanted(table: dict[str, Any], given: Sequence[Given]) -> dict[str, Any]:
    for name, waiver in given:
        rule = table.setdefault("rules", {}).setdefault(name, {})
        rule.setdefault("waive", []).append(waiver.model_dump(exclude_none=True))
    return table


def _tried(
    way: Callable[[str, Sequence[Given], Sequence[str]], str],
    text: str,
    given: Sequence[Given],
    why: Sequence[str],
) -> str | None:
    try:
        told = way(text, given, why)
        tomllib.loads(told)
    except (TOMLKitError, tomllib.TOMLDecodeError):
        return None
    return told


def _appended(text: str, given: Sequence[Given], why: Sequence[str]) -> str:
    """Add tables at the end, which leaves every line above as it is."""
    lines = ["", *(f"# {line}" for line in why)]
    for name, waiver in given:
        lines += [f"[[rules.{name}.waive]]"]
        fields = waiver.model_dump(exclude_none=True)
        lines += [f"{key} = {tomlkit.item(value).as_string()}" for key, value in fields.items()]
        lines += [""]
    ending = "\r\n" if "\r\n" in text else "\n"
    head = text if text.endswith("\n") or not text else text + ending
    return head + ending.join(lines)


def _inserted(text: str, given: Sequence[Given], _: Sequence[str]) -> str:
    """Add to tables written inside one line, or by dotted keys."""
    document = tomlkit.parse(text)
    for name, waiver in given:
        rules: Any = document.setdefault("rules", tomlkit.inline_table())
        rule = rules.setdefault(name, tomlkit.inline_table())
        entry = tomlkit.inline_table()
        entry.update(waiver.model_dump(exclude_none=True))
        if "waive" not in rule:
            rule["waive"] = tomlkit.array()
        rule["waive"].append(entry)
    return tomlkit.dumps(document)


def _moved(text: str, source: Path, out: Path) -> str:
    """Let the files it names be found from another folder."""
    here, there = source.resolve().parent, out.resolve().parent
    named = [key for key in BESIDE if key in tomllib.loads(text)]
    if here == there or not named:
        return text
    document = tomlkit.parse(text)
    for key in named:
        path = here / str(document[key])
        document[key] = Path(os.path.relpath(path, there)).as_posix()
    return tomlkit.dumps(document)
