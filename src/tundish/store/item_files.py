"""Pictures and makers' sheets kept with the items of the catalogue, under the digest of their bytes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from tundish.errors import TundishError
from tundish.store.photographs import MEDIA, is_kept_kind, key_of

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from tundish.store.keep import Store

PDF: Final = "application/pdf"
MOST_BYTES: Final = 30_000_000
ENDINGS: Final = {MEDIA: ".jpg", PDF: ".pdf"}


@dataclass(frozen=True, slots=True)
class ItemFile:
    """One file kept with an item, without its bytes."""

    item: str
    key: str
    name: str
    media: str


class CannotKeepFileError(TundishError):
    """A file is neither a picture nor a maker's sheet that can be kept."""


def attach(store: Store, item: str, name: str, body: bytes) -> ItemFile:
    """Keep a JPEG or a PDF with an item; the same bytes once. Raises CannotKeepFileError."""
    media = MEDIA if is_kept_kind(body) else PDF if body.startswith(b"%PDF-") and len(body) <= MOST_BYTES else ""
    if not media:
        raise CannotKeepFileError(f"{name} is not kept: it is neither a picture nor a PDF of at most {MOST_BYTES // 1_000_000} MB.")
    made = ItemFile(item, key_of(body), name, media)

    def work(connection: Connection) -> ItemFile:
        from sqlalchemy import delete, insert

        from tundish.store.tables import item_files

        connection.execute(delete(item_files).where((item_files.c.item == item) & (item_files.c.key == made.key)))
        connection.execute(insert(item_files), [{"item": item, "key": made.key, "name": name, "media": media, "body": body}])
        return made

    return store.work(work)


def attached(store: Store, item: str) -> tuple[ItemFile, ...]:
    """What is kept with an item, by name."""

    def work(connection: Connection) -> tuple[ItemFile, ...]:
        from sqlalchemy import select

        from tundish.store.tables import item_files

        c = item_files.c
        rows = connection.execute(select(c.item, c.key, c.name, c.media).where(c.item == item).order_by(c.name, c.key))
        return tuple(ItemFile(*row) for row in rows)

    return store.work(work)


def body_of(store: Store, item: str, key: str) -> bytes | None:
    """The bytes of one, or None."""

    def work(connection: Connection) -> bytes | None:
        from sqlalchemy import select

        from tundish.store.tables import item_files

        c = item_files.c
        found: bytes | None = connection.execute(select(c.body).where((c.item == item) & (c.key == key))).scalar()
        return found

    return store.work(work)


def detach(store: Store, item: str, key: str) -> None:
    """Keep it no more."""

    def work(connection: Connection) -> None:
        from sqlalchemy import delete

        from tundish.store.tables import item_files

        connection.execute(delete(item_files).where((item_files.c.item == item) & (item_files.c.key == key)))

    store.work(work)
