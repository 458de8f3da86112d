"""What another rule figure or another rule of the trader's would change in a job."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from tundish.catalogue.load import supplied_book
from tundish.catalogue.own_rules import OwnRule, sentence
from tundish.documents.difference import differences
from tundish.documents.materials import build, of_my_own
from tundish.estimate import Estimate, estimate
from tundish.measure import show_money
from tundish.rules.book import RULES
from tundish.store.keep import demo_jobs
from tundish.writers.text import as_text

BOOK: Final = supplied_book()
CLOAKROOM: Final = next(job for job in demo_jobs() if job.number == "101")


def before() -> Estimate:
    """The cloakroom as it is now: a best split of suppliers that other tests found is known from then on."""
    return estimate(CLOAKROOM, BOOK)


def with_figure(key: str, value: float) -> tuple[str, ...]:
    figures = {**BOOK.figures, key: replace(BOOK.figures[key], value=value)}
    return differences(before(), estimate(CLOAKROOM, replace(BOOK, figures=figures)))


def test_nothing_is_said_where_nothing_differs() -> None:
    assert differences(before(), estimate(CLOAKROOM, BOOK)) == ()


def test_another_norm_moves_hours_and_price_by_what_is_said() -> None:
    figures = {**BOOK.figures, "labour.frame": replace(BOOK.figures["labour.frame"], value=4)}
    after = estimate(CLOAKROOM, replace(BOOK, figures=figures))
    hours, price = differences(before(), after)
    assert hours.startswith("Hours: 28"), "the pre-wall and its floor tiles"
    assert price.endswith(f"{show_money(after.price.total - before().price.total)} more")


def test_the_price_has_vat_in_its_name_only_where_it_is_charged() -> None:
    figures = {**BOOK.figures, "labour.frame": replace(BOOK.figures["labour.frame"], value=4)}
    for number, name in (("101", "Price inc. VAT: "), ("103", "Price: ")):
        job = next(each for each in demo_jobs() if each.number == number)
        assert differences(estimate(job, BOOK), estimate(job, replace(BOOK, figures=figures)))[-1].startswith(name)


def test_an_amount_is_said_before_and_after_and_what_was_not_there_as_none() -> None:
    disc = BOOK.role("cutting disc")
    one = estimate(CLOAKROOM, replace(BOOK, own_rules=(OwnRule(every="room", allow="2", item=disc.code),)))
    assert f"{disc.name}: 1 → 3" in differences(before(), one)
    skip = next(item for item in BOOK.items.values() if item.kind == "skip")
    other = estimate(CLOAKROOM, replace(BOOK, own_rules=(OwnRule(every="room", allow="1", item=skip.code),)))
    assert any(words.startswith(f"{skip.name}: none → 1") for words in differences(before(), other))
    assert any(words.startswith(f"{skip.name}: 1") and words.endswith("→ none") for words in differences(other, before()))


def test_a_check_that_fails_then_is_named() -> None:
    steeper = with_figure("drainage.wc_fall_least", 500)
    assert any(words.startswith("Fails then: Fall of WC branch") for words in steeper)


def test_the_materials_list_names_the_changed_figures_and_own_rules_that_bite() -> None:
    screws, flush = BOOK.figures["boards.screws_per_m2"], BOOK.figures["drainage.soil_clips"]
    changed = {each.key: replace(each, value=each.value * 2, changed="2026-11-20") for each in (screws, flush)}
    rule = OwnRule(name="discs wear out", every="frame", allow="2", item=BOOK.role("cutting disc").code)
    idle = OwnRule(name="never here", every="frame", allow="2", item=rule.item, when="timber pre-wall")
    worked = estimate(CLOAKROOM, replace(BOOK, figures={**BOOK.figures, **changed}, own_rules=(rule, idle)))
    told = tuple(of_my_own(worked))
    assert f"{screws.label}: {screws.value * 2:g} {screws.unit}, supplied {screws.value:g}; changed Fri 20 Nov 2026" in told
    assert sentence(rule, BOOK.items) in told
    assert sentence(idle, BOOK.items) not in told
    assert "By figures and rules of my own" in as_text(build(worked))
    assert not tuple(of_my_own(before()))


def test_a_changed_figure_that_no_rule_used_here_is_not_named() -> None:
    """A cloakroom on joists with a WC and a basin asks nothing of a urinal's figures or a rail's."""
    idle = next(
        figure for figure in BOOK.figures.values()
        if (rules := {rule.key for rule in RULES if figure.key in rule.figures})
        and not rules & ({need.rule for line in before().lines for need in line.needs} | {each.rule for each in before().findings})
        and not figure.key.startswith("labour.")
    )  # fmt: skip
    other = {**BOOK.figures, idle.key: replace(idle, value=idle.value + 1, changed="2026-11-20")}
    assert not tuple(of_my_own(estimate(CLOAKROOM, replace(BOOK, figures=other))))
