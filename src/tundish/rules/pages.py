"""The reference pages of the rule book, as Markdown: what each rule says, who says so, and the figures it works with."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import groupby

from tundish.catalogue.book import Book
from tundish.measure import show_number
from tundish.rules.rule import Rule

_READS = {
    "room": "Reads the room as it is worked out.",
    "needs": "Reads the room and what the other rules ask for.",
    "list": "Reads the room and all that is on the list.",
}


def page(rule: Rule, book: Book) -> str:
    """One rule: its sentence, more about it, its source, and its figures with value, unit and source."""
    reads = f"{_READS[rule.reads]}{_prints(rule)} Source: {rule.source}."
    parts = [f"## {rule.sentence}", _flowing(rule.more), reads, _figures(rule, book)]
    return "\n\n".join(part for part in parts if part) + f"\n\n`{rule.key}`\n"


def pages(rules: tuple[Rule, ...], book: Book) -> Mapping[str, str]:
    """The text of every page by file name: one page a family, its rules in the order of the book, and a list of them all."""
    made: dict[str, str] = {}
    index = ["# The rule book", "Written from the rules themselves; `python .ci/check.py --pages` writes these pages again."]
    for family, of_family in groupby(rules, key=lambda each: each.family):
        kept = tuple(of_family)
        made[f"{family}.md"] = f"# {family.capitalize()}\n\n" + "\n".join(page(each, book) for each in kept)
        index.append(f"[{family.capitalize()}]({family}.md)\n\n" + "\n".join(f"- {each.sentence}" for each in kept))
    return {"README.md": "\n\n".join(index) + "\n", **made}


def _prints(rule: Rule) -> str:
    """Where the cautions of a rule are printed."""
    if rule.family != "safety":
        return ""
    return f" Printed on {' and '.join(('the setting-out sheet of its wall', *(f'the {each}' for each in rule.prints)))}."


def _flowing(words: str) -> str:
    """A docstring's paragraphs, each on one line."""
    paragraphs = [
        " ".join(line.strip() for line in lines)
        for filled, lines in groupby(words.splitlines(), key=lambda one: bool(one.strip()))
        if filled
    ]
    return "\n\n".join(paragraphs)


def _figures(rule: Rule, book: Book) -> str:
    if not rule.figures:
        return ""
    known = [book.figures[key] for key in rule.figures if key in book.figures]
    rows = [f"| {each.label} | {show_number(each.value, None)} | {each.unit} | {each.source} | {each.valid_from} |" for each in known]
    return "\n".join(["| Figure | Value | Unit | Source | Valid from |", "| --- | ---: | --- | --- | --- |", *rows])
