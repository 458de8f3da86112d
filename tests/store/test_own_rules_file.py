"""The trader's own rules in the database and in a file."""

from __future__ import annotations

from pathlib import Path

import pytest

from tundish.catalogue.own_rules import OwnRule
from tundish.store.keep import Store
from tundish.store.own_rules_file import CannotReadRulesError, own_rules_bytes, own_rules_of

RULES = (
    OwnRule(name="discs wear out", every="frame", allow="2", item="cutting-disc", when="on joists"),
    OwnRule(name="⅓ “more” тест", every="square metre of tiles", allow="0.3 kg", item="grout", rounded=False, stage="boarding"),
)


def test_they_are_kept_with_the_database_and_stand_in_its_book(tmp_path: Path) -> None:
    store = Store(f"sqlite:///{tmp_path / 'a.db'}")
    assert store.book().own_rules == ()
    store.keep_own_rules(RULES)
    store.close()
    again = Store(f"sqlite:///{tmp_path / 'a.db'}")
    assert again.book().own_rules == RULES
    again.close()


def test_a_file_brings_in_what_was_given_away() -> None:
    assert own_rules_of(own_rules_bytes(RULES), "mine.json") == RULES


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (b"", "it is not such a file"),
        (b"\xff\xfe\x00", "it is not such a file"),
        (own_rules_bytes(RULES)[:-20], "or was cut short"),
        (b"[" * 100_000, "it is not such a file"),
        (b"[]", "it holds no rules"),
        (b'{"format": "tundish job"}', "it holds no rules"),
        (own_rules_bytes(RULES).replace(b'"version": 1', b'"version": 9'), "a version that this program does not know"),
        (own_rules_bytes(RULES).replace(b'"frame"', b'"moon"'), "rules.0.every"),
        (own_rules_bytes(RULES).replace(b'"allow"', b'"allows"'), "is not known"),
        (b" " * 1_000_001, "larger than a file of rules can be"),
    ],
)
def test_a_file_that_cannot_be_used_says_why(data: bytes, why: str) -> None:
    with pytest.raises(CannotReadRulesError) as told:
        own_rules_of(data, "mine.json")
    assert str(told.value).startswith("mine.json cannot be brought in: ")
    assert why in str(told.value)
