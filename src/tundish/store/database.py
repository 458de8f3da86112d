"""Opening the database: SQLite in the user's data folder, or any URL given; its schema brought up to date first."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, Final

from tundish.errors import TundishError

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

SCHEMA: Final = "0012"
"""The newest schema step; a database that is there already opens without the migration library."""
FILE: Final = "tundish.db"


_CURES: Final = (
    (("not a database", "malformed"), "It is damaged, or another program's: put a copy back in its place, or move it aside to start anew"),
    (("locked",), "Another program is using it: close that one and try again"),
    (("full",), "Make room on the disk and try again"),
)
_CURE: Final = "See that the folder is there, can be written to and has room"


class CannotOpenError(TundishError):
    """The database cannot be opened: where, why, and what to do."""

    def __init__(self, where: str, why: str, cure: str = "") -> None:
        super().__init__(f"{where} cannot be opened: {why}. Nothing in it was changed. {cure or cure_of(why)}.")


class CannotKeepError(TundishError):
    """Something could not be read from or written to the open database; nothing was half done."""

    def __init__(self, why: str) -> None:
        super().__init__(f"The database could not be used: {why}. Nothing was half done. {cure_of(why)}.")


def home() -> Path:
    """The folder of the user's data; TUNDISH_HOME overrules the system's usual place."""
    given = os.environ.get("TUNDISH_HOME", "").strip()
    if given:
        return Path(given).expanduser()
    import platformdirs

    return Path(platformdirs.user_data_dir("Tundish", appauthor=False))


def open_engine(url: str = "") -> Engine:
    """An engine on the given URL, or on the file in the user's folder, with the newest schema."""
    import sqlalchemy as sa

    where = url or str(home() / FILE)
    try:
        if not url:
            home().mkdir(parents=True, exist_ok=True)
        engine = sa.create_engine(url or sa.URL.create("sqlite", database=where))
    except (OSError, sa.exc.SQLAlchemyError) as fault:
        raise CannotOpenError(where, why(fault)) from fault
    if engine.dialect.name == "sqlite":
        sa.event.listen(engine, "connect", _pragmas)
        sa.event.listen(engine, "begin", _begin)
    try:
        _bring_up_to_date(engine, where)
    except sa.exc.SQLAlchemyError as fault:
        engine.dispose()
        raise CannotOpenError(where, why(fault)) from fault
    return engine


def why(fault: Exception) -> str:
    """What the database or the system said, without its full stop."""
    words = str(getattr(fault, "orig", None) or getattr(fault, "strerror", None) or fault)
    return words.splitlines()[0].rstrip(".")


def cure_of(why: str) -> str:
    """What to do about what the database said."""
    return next((cure for words, cure in _CURES if any(word in why for word in words)), _CURE)


def _pragmas(connection: object, _record: object) -> None:
    cursor = connection.cursor()  # type: ignore[attr-defined]  # the driver's own connection
    # Write-ahead log with full syncing: what is committed survives a pulled plug. What a long price list changes has room in
    # memory (kB) and in the log (pages of 4 kB), and is brought over into the file later.
    room = ("cache_size=-16000", "wal_autocheckpoint=4000")
    for words in ("busy_timeout=5000", "journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", *room):
        cursor.execute(f"PRAGMA {words}")
    cursor.close()
    # The driver would begin only before the first change; _begin does it before the first look.
    connection.isolation_level = None  # type: ignore[attr-defined]


def _begin(connection: Connection) -> None:
    # One writer at a time from the first look on: what was read is still so when it is changed, and a schema step is whole or not there.
    connection.exec_driver_sql("BEGIN IMMEDIATE")


def _bring_up_to_date(engine: Engine, where: str) -> None:
    with engine.connect() as connection:
        at = _schema_of(connection)
    if at == SCHEMA:
        return
    if at > SCHEMA:
        engine.dispose()
        raise CannotOpenError(where, f"it was made by a newer Tundish (schema {at}; this one knows {SCHEMA})", "Update the program")
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations"))
    config.set_main_option("path_separator", "os")
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.upgrade(config, "head")


def _schema_of(connection: Connection) -> str:
    import sqlalchemy as sa

    if not sa.inspect(connection).has_table("alembic_version"):
        return ""
    return str(connection.execute(sa.text("SELECT version_num FROM alembic_version")).scalar() or "")
