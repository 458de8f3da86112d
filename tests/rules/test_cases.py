"""Every rule is tried on the cases in its own file, `cases/<family>/<rule>.toml`, and has words and a source to show for itself.

A case file holds one or more cases::

    [[case]]
    because = "Three uprights of 1,161: two brackets each, and one for each tie."   # how it was worked out by hand
    room = "plain"                               # a room of rooms/<name>.toml
    set = { "design.prewall.depth" = 210 }       # inputs changed, by path; the place after the last of a list adds to it
    book = { "prewall.near" = 50, "frame-wc.depth_least" = 120 }   # rule figures, and makers' sizes as "item code.size"
    without = ["tie-rod-long"]                   # items that the catalogue does not hold
    stage = "frames"                             # when given: the stage of every need
    works = ["", "tiling"]                       # when given: the parts of its stage that the hours are for
    needs = { "corner bracket" = 9 }             # role or item -> sum of its amounts; hours are under "labour"
    own = ["pan-rimless"]                        # roles or items that the client supplies
    cuts = { U1 = 1161, B1 = "1200 x 850" }      # when given: every piece, by mark
    findings = { "Depth of the frame, WC 1" = "fails" }            # title, place -> state…
    findings = { "Fall, WC 1" = { state = "fails", has = 10, least = 25, most = 90, says = "Raise", ways = { "rooms.0.…" = 424 } } }
    findings = { "Fall, WC 1" = { state = "passes", has = 30, low = 28, high = 34 } }   # the range of what there is
    findings = { "Fall, WC 1" = { state = "passes", source = "EN 12056-2" } }      # how where it is from begins
    cautions = ["Silica dust"]                   # titles, place after a comma where it has one
    decisions = ["heights"]                      # keys

What a case does not name must not be said. Amounts agree within a thousandth of their unit.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Iterable, Mapping
from copy import deepcopy
from dataclasses import replace
from functools import cache, lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

import pytest

from tundish.catalogue.book import Book, NotInBookError, RuleFigure
from tundish.catalogue.load import supplied_book
from tundish.layout.design import RoomPlan
from tundish.layout.room import Room
from tundish.layout.work_out import work_out
from tundish.plain import from_plain
from tundish.rules.book import RULES
from tundish.rules.rule import Asked, Caution, Cut, Decision, Finding, Need, Rule, Said

HERE = Path(__file__).parent
CASES = HERE / "cases"
Case = Mapping[str, Any]


def cases() -> Iterable[Any]:
    for each in RULES:
        path = file_of(each)
        found = tomllib.loads(path.read_text(encoding="utf-8"))["case"] if path.exists() else ()
        for place, case in enumerate(found, 1):
            yield pytest.param(each, case, id=f"{each.key}-{place}")


def file_of(each: Rule) -> Path:
    return CASES / f"{each.key.replace('-', '_')}.toml"


@pytest.mark.parametrize(("each", "case"), list(cases()))
def test_a_rule_says_what_its_case_expects(each: Rule, case: Case) -> None:
    room, book = given(case)
    figures = Watched(book.figures)
    said = said_by(each, room, book, replace(book, figures=figures))
    assert figures.read <= set(each.figures), "a rule names every figure it works with"
    needs = [one for one in said if isinstance(one, Need)]
    assert summed(needs) == pytest.approx(case.get("needs", {}), abs=1e-3), case["because"]
    assert sorted({one.role or one.item for one in needs if one.own}) == sorted(case.get("own", ()))
    assert {one.stage for one in needs} <= {case.get("stage", one.stage) for one in needs}
    if "works" in case:
        assert sorted({one.work for one in needs}) == case["works"], case["because"]
    if "cuts" in case:
        assert cuts(needs) == case["cuts"], case["because"]
    compare_findings([one for one in said if isinstance(one, Finding)], case.get("findings", {}))
    assert [titled(one) for one in said if isinstance(one, Caution)] == case.get("cautions", [])
    assert [one.key for one in said if isinstance(one, Decision)] == case.get("decisions", [])


@pytest.mark.parametrize("each", RULES, ids=lambda each: each.key)
def test_a_rule_shows_its_words_its_source_and_its_cases(each: Rule) -> None:
    assert file_of(each).exists(), "a rule needs a case file"
    assert each.sentence[:1].isupper(), "the first line of the docstring is the sentence the user reads"
    assert each.sentence.endswith(".")
    assert each.source, "a rule names its source"
    assert each.says.__module__ == f"tundish.rules.{each.key.replace('/', '.').replace('-', '_')}", "the file is named by its meaning"
    assert {key for key in each.figures if key not in the_book().figures} == set()


def test_no_case_file_is_without_its_rule() -> None:
    assert {path.relative_to(CASES) for path in CASES.rglob("*.toml")} <= {file_of(each).relative_to(CASES) for each in RULES}


def test_the_book_names_every_rule_once_and_in_order() -> None:
    rules = HERE.parents[1] / "src" / "tundish" / "rules"
    files = [f"{path.parent.name}/{path.stem.replace('_', '-')}" for path in rules.glob("*/*.py") if path.stem != "__init__"]
    assert [each.key for each in RULES] == sorted(files)


def given(case: Case) -> tuple[Room, Book]:
    """The room of a case worked out, and the book it is worked out with."""
    plain = deepcopy(plain_room(case["room"]))
    for path, value in case.get("set", {}).items():
        place(plain, path.split("."), value)
    plan, problems, unknown = from_plain(RoomPlan, plain)
    assert plan is not None, problems
    assert not unknown
    if not case.get("book") and not case.get("without"):
        return supplied_room(plan), the_book()
    book = changed_book(case.get("book", {}), case.get("without", ()))
    return work_out(plan, book, "rooms.0"), book


@cache
def plain_room(name: str) -> dict[str, Any]:
    """A file of rooms as it stands there: for copies only."""
    return tomllib.loads((HERE / "rooms" / f"{name}.toml").read_text(encoding="utf-8"))


@lru_cache(maxsize=128)
def supplied_room(plan: RoomPlan) -> Room:
    """A room worked out with the supplied book, once for all cases that share it."""
    return work_out(plan, the_book(), "rooms.0")


@lru_cache(maxsize=1)
def the_book() -> Book:
    return supplied_book()


def place(plain: Any, words: list[str], value: Any) -> None:
    """Put a value at a path of plain data."""
    word, *rest = words
    if isinstance(plain, list):
        number = int(word)
        plain += [{}] * (number + 1 - len(plain))
        if rest:
            plain[number] = dict(plain[number])
            place(plain[number], rest, value)
        else:
            plain[number] = value
    elif rest:
        place(plain.setdefault(word, [] if rest[0].isdecimal() else {}), rest, value)
    else:
        plain[word] = value


def changed_book(changes: Mapping[str, float], without: Iterable[str]) -> Book:
    """The supplied book with other rule figures and makers' sizes, and without some items."""
    book = the_book()
    items, figures = dict(book.items), dict(book.figures)
    for key, value in changes.items():
        code, _, size = key.partition(".")
        if code in items:
            sizes = {**items[code].sizes, size: (value, items[code].sizes[size][1])}
            items[code] = replace(items[code], sizes=MappingProxyType(sizes))
        else:
            figures[key] = replace(figures[key], value=value)
    for code in without:
        del items[code]
    return replace(book, items=items, figures=figures)


def said_by(each: Rule, room: Room, book: Book, watched: Book) -> list[Said]:
    """What one rule says of the book that is watched; for a rule of a later pass, all rules of the passes before are asked first."""
    if each.reads == "room":
        return list(each.says(room, watched))
    asked = tuple(_needs((every for every in RULES if every.reads == "room"), room, book))
    if each.reads == "list":
        asked += tuple(_needs((every for every in RULES if every.reads == "needs"), Asked(room, asked), book))
    return list(each.says(Asked(room, asked), watched))


def _needs(rules: Iterable[Rule], reads: Room | Asked, book: Book) -> Iterable[Need]:
    """What rules ask for; one that cannot be worked out without an item asks for nothing more, as in the take-off."""
    for every in rules:
        try:
            yield from (one for one in every.says(reads, book) if isinstance(one, Need))
        except NotInBookError:
            continue


class Watched(dict[str, RuleFigure]):
    """Rule figures that remember which of them were read."""

    def __init__(self, figures: Mapping[str, RuleFigure]) -> None:
        super().__init__(figures)
        self.read: set[str] = set()

    def get(self, key: str, default: Any = None) -> Any:
        self.read.add(key)
        return super().get(key, default)


def summed(needs: Iterable[Need]) -> dict[str, float]:
    sums: Counter[str] = Counter()
    for each in needs:
        sums[each.role or each.item] += each.amount.value  # type: ignore[assignment]  # Counter adds floats as well
    return dict(sums)


def cuts(needs: Iterable[Need]) -> dict[str, object]:
    pieces = [cut for each in needs for cut in each.cuts]
    found = {cut.mark: size_of(cut) for cut in pieces}
    assert len(found) == len(pieces), "two pieces with one mark"
    return found


def size_of(cut: Cut) -> object:
    length = round(cut.length.value, 2)
    return length if cut.width is None else f"{length:g} x {round(cut.width.value, 2):g}"


def compare_findings(found: list[Finding], expected: Mapping[str, Any]) -> None:
    assert {titled(each): each.state for each in found} == {
        title: wanted if isinstance(wanted, str) else wanted["state"] for title, wanted in expected.items()
    }
    assert len({titled(each) for each in found}) == len(found), "two findings alike"
    for each in found:
        wanted = expected[titled(each)]
        if isinstance(wanted, str):
            continue
        for name in ("has", "least", "most"):
            if name in wanted:
                figure = getattr(each, name)
                assert figure is not None, f"{titled(each)}: {name}"
                assert figure.value == pytest.approx(wanted[name], abs=1e-3), f"{titled(each)}: {name}"
        for name in ("low", "high"):
            if name in wanted:
                assert getattr(each.has, name) == pytest.approx(wanted[name], abs=1e-3), f"{titled(each)}: {name}"
        assert wanted.get("says", "") in each.message
        assert each.source.startswith(wanted.get("source", ""))
        if "ways" in wanted:
            assert {way.path: way.value for way in each.ways_out} == pytest.approx(wanted["ways"], abs=1e-3)


def titled(one: Finding | Caution) -> str:
    return f"{one.title}, {one.place}" if one.place else one.title
