"""The trader's logo is kept to the byte; what is none is refused in words, and a spoilt one stops nothing."""

from __future__ import annotations

import pytest

from tundish.store import logo
from tundish.store.keep import Store
from tundish.store.photographs import MOST_BYTES

BODY = b"\xff\xd8\xff" + bytes(range(256))


def test_it_comes_back_as_it_was_kept_until_it_is_taken_away(store: Store) -> None:
    assert logo.kept(store) is None
    logo.keep(store, BODY)
    assert logo.kept(store) == BODY
    logo.keep(store, b"")
    assert logo.kept(store) is None


@pytest.mark.parametrize("body", [b"GIF89a", BODY + bytes(MOST_BYTES)])
def test_what_is_no_logo_is_refused_and_the_one_before_stays(store: Store, body: bytes) -> None:
    logo.keep(store, BODY)
    with pytest.raises(logo.CannotKeepLogoError, match="not kept"):
        logo.keep(store, body)
    assert logo.kept(store) == BODY


@pytest.mark.parametrize("nonsense", [7, "not base64!", {"a": 1}, "R0lGODlh"])
def test_a_spoilt_setting_is_no_logo(store: Store, nonsense: object) -> None:
    store.keep_setting(logo.SETTING, nonsense)
    assert logo.kept(store) is None
