"""Checks over every choice that is still open: whether they pass whatever is decided, and what they turn on."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator
from dataclasses import replace
from typing import Any, Final

from tundish.layout.undecided import OpenChoice, Picks
from tundish.layout.widened import Turned, widened_alike
from tundish.rules.rule import Finding, Verdict, Weighed
from tundish.takeoff.matched import matched


def weighed(turned: Turned) -> tuple[Finding, ...]:
    """The checks as made with the first alternatives, each with what holds of it over all; then those that fail with others alone.

    A check that one alternative does not ask for passes with it.
    """
    first: tuple[Finding, ...] = turned.first
    found = {picks: matched(first, each, _KEYS) for picks, each in turned.by.items()}
    kept = tuple(_one(turned.of({picks: each[place] for picks, each in found.items()})) for place in range(len(first)))
    return (*kept, *_only_with_others(turned, found))


def _one(turned: Turned) -> Finding:
    finding = _over_the_figures(turned)
    outcomes = {picks: _outcome(each) for picks, each in turned.by.items()}
    on = _turns_on(turned, outcomes)
    if on:
        own = tuple(leaf for each in turned.by.values() if each for leaf in each.depends_on)
        leaves = {leaf.path: leaf for leaf in (*(each.figure() for each in on), *own)}
        return replace(finding, message=_message(turned, _depends(turned, on)), weighed=Weighed("depends", tuple(leaves.values())))
    verdict = turned.first.verdict
    if finding is not turned.first:
        finding = replace(finding, message=_message(turned))
    if finding is turned.first or verdict == "cannot tell" or not _all_told(turned, finding):
        return finding
    return replace(finding, weighed=Weighed(verdict, turned.first.depends_on))


def _message(turned: Turned, depends: str = "") -> str:
    """What the check says, on what it depends, and what else it says with each of the other alternatives."""
    said = (turned.first.message, "")
    others = dict.fromkeys((each.message, f"With {name}: {each.message}") for _, name, each in turned.alone() if each and each.message)
    told = [words for message, words in others if message not in said][:_MOST_TOLD]
    return " ".join(_ended(words) for words in (turned.first.message, depends, *told) if words)


def _over_the_figures(turned: Turned) -> Finding:
    first: Finding = turned.first
    spread: dict[str, Any] = {}
    for name in ("has", "least", "most"):
        by = {picks: figure for picks, each in turned.by.items() if each and (figure := getattr(each, name)) is not None}
        before = getattr(first, name)
        if before is not None and (after := widened_alike(turned.of(by))) is not before:
            spread[name] = after
    return replace(first, **spread) if spread else first


def _all_told(turned: Turned, finding: Finding) -> bool:
    """Whether every combination that can move the check was worked out: all were, or one choice alone moves it."""
    paths = {each.path for each in turned.choices}
    return turned.whole or len({each.path for each in finding.open_inputs} & paths) <= 1


def _outcome(finding: Finding | None) -> str:
    """What a check comes to with one combination, its numbers still open as they are."""
    if finding is None:
        return "always"
    if finding.verdict != "cannot tell":
        return finding.verdict
    return _PLAIN.get(finding.state, finding.state)


def _turns_on(turned: Turned, outcomes: dict[Picks, str]) -> tuple[OpenChoice, ...]:
    """The choices of which another alternative makes the check come out otherwise, whatever is chosen of the rest."""
    return tuple(choice for place, choice in enumerate(turned.choices) if any(_differs(outcomes, picks, place) for picks in outcomes))


def _differs(outcomes: dict[Picks, str], picks: Picks, place: int) -> bool:
    before = (*picks[:place], 0, *picks[place + 1 :])
    return before in outcomes and outcomes[picks] != outcomes[before]


def _depends(turned: Turned, on: tuple[OpenChoice, ...]) -> str:
    """On which choices it depends, and how it comes out with each of their alternatives while the rest stand as they do."""
    said = []
    for choice in on:
        by = {choice.names[0]: turned.first} | {name: each for one, name, each in turned.alone() if one == choice}
        states: dict[str, list[str]] = {}
        for name, each in by.items():
            states.setdefault(_SAID[each.state] if each else "not asked for", []).append(name)
        told = ", ".join(f"{state} with {' or '.join(names)}" for state, names in states.items())
        said.append(
            f"Depends on {choice.label}: {told}." if len(states) > 1 else f"Depends on {choice.label}, together with what else is open."
        )
    return " ".join(said)


def _only_with_others(turned: Turned, found: dict[Picks, tuple[Finding | None, ...]]) -> Iterator[Finding]:
    """The checks that only other alternatives ask for and that do not pass there, to be looked at before one is chosen."""
    seen: set[Hashable] = set()
    for picks, each in turned.by.items():
        taken = {id(one) for one in found[picks] if one}
        for finding in each:
            if id(finding) in taken or _outcome(finding) == "always" or _KEYS[0](finding) in seen:
                continue
            seen.add(_KEYS[0](finding))
            on = [choice for choice, pick in zip(turned.choices, picks, strict=True) if pick]
            names = " and ".join(choice.names[pick] for choice, pick in zip(turned.choices, picks, strict=True) if pick)
            words = f"Depends on {', '.join(choice.label for choice in on)}: {_SAID[finding.state]} with {names}."
            turns_on = (*(choice.figure() for choice in on), *finding.depends_on)
            message = " ".join(part for part in (words, _ended(finding.message)) if part)
            yield replace(finding, state="look", message=message, ways_out=(), weighed=Weighed("depends", turns_on))


def _ended(words: str) -> str:
    """Words as a sentence that another may follow."""
    return words if not words or words[-1] in ".!?" else f"{words}."


_KEYS: Final[tuple[Callable[[Finding], Hashable], ...]] = (
    lambda one: (one.rule, one.title, one.place),
    lambda one: (one.rule, one.place),
)
_MOST_TOLD: Final = 3
_PLAIN: Final[dict[str, Verdict]] = {"passes": "always", "fails": "never"}
_SAID: Final = {"passes": "passes", "look": "to be looked at", "fails": "fails", "cannot tell": "cannot be told"}
