"""The trader's own sign, printed at the head of papers: one picture, kept with the trader's details."""

from __future__ import annotations

import base64
import binascii
from typing import TYPE_CHECKING, Final

from tundish.errors import TundishError
from tundish.store.photographs import is_kept_kind

if TYPE_CHECKING:
    from tundish.store.keep import Store

SETTING: Final = "logo"


class CannotKeepLogoError(TundishError):
    """What was given is no picture of the kind that is kept."""


def keep(store: Store, body: bytes) -> None:
    """Keep the bytes of a JPEG in place of the logo there was; none takes it away. Raises CannotKeepLogoError."""
    if body and not is_kept_kind(body):
        raise CannotKeepLogoError("This picture is not kept: it is no JPEG, or larger than a logo can be.")
    store.keep_setting(SETTING, base64.b64encode(body).decode("ascii"))


def kept(store: Store) -> bytes | None:
    """The bytes of the logo, or None; what was kept and is none is taken as none."""
    words = store.setting(SETTING)
    try:
        body = base64.b64decode(words, validate=True) if isinstance(words, str) else b""
    except (binascii.Error, ValueError):
        return None
    return body if is_kept_kind(body) else None
