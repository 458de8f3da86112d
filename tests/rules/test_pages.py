"""The reference pages say what the rules say, and the ones in docs are those that the rules make."""

from __future__ import annotations

from pathlib import Path

from tundish.catalogue.load import supplied_book
from tundish.rules.book import RULES
from tundish.rules.pages import page, pages
from tundish.rules.rule import Rule

DOCS = Path(__file__).parents[2] / "docs" / "rules"


def test_the_pages_in_docs_are_up_to_date() -> None:
    written = {path.name: path.read_text(encoding="utf-8") for path in DOCS.glob("*.md")}
    assert written == pages(RULES, supplied_book()), "write them again: python .ci/check.py --pages"


def test_a_page_shows_sentence_words_source_and_figures() -> None:
    more = "One line\n    and its end.\n\n    Another."
    each = Rule("frames/one", "frames", "Each frame is one.", more, "common practice", ("frames.packer",), "room", lambda: ())
    assert page(each, supplied_book()) == (
        "## Each frame is one.\n\nOne line and its end.\n\nAnother.\n\n"
        "Reads the room as it is worked out. Source: common practice.\n\n"
        "| Figure | Value | Unit | Source | Valid from |\n| --- | ---: | --- | --- | --- |\n"
        "| Thickness of one ply packer | 18 | mm | common practice | 2026-11-01 |\n\n`frames/one`\n"
    )


def test_a_rule_without_figures_or_more_words_has_a_short_page() -> None:
    each = Rule("frames/one", "frames", "Each frame is one.", "", "a sheet", (), "needs", lambda: ())
    said = "Reads the room and what the other rules ask for. Source: a sheet."
    assert page(each, supplied_book()) == f"## Each frame is one.\n\n{said}\n\n`frames/one`\n"


def test_there_is_a_page_for_every_family_and_a_list_of_all_rules() -> None:
    made = pages(RULES, supplied_book())
    assert set(made) == {"README.md", *(f"{each.family}.md" for each in RULES)}
    assert all(f"- {each.sentence}" in made["README.md"] for each in RULES)
    assert all(f"## {each.sentence}" in made[f"{each.family}.md"] for each in RULES)
