"""Opening the database: SQLite in the user's data folder, or any URL given; its schema brought up to date first."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING, Final

from tundish.errors import TundishError

if TYPE_CHECKING:
    from sqlalchemy import Connection, Engine

SCHEMA: Final = "0001"
"""The newest schema step; a database that is there already opens without the migration library."""
FILE: Final = "tundish.db"


class CannotOpenError(TundishError):
    """The database cannot be opened: where, why, and what to do."""

    def __init__(self, where: str, why: str) -> None:
        super().__init__(
            f"{where} cannot be opened: {why}. Your jobs are safe where they are; see that the folder can be written and has room."
        )


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
        engine = sa.create_engine(url or f"sqlite:///{where}")
        if engine.dialect.name == "sqlite":
            sa.event.listen(engine, "connect", _pragmas)
        _bring_up_to_date(engine)
    except (OSError, sa.exc.SQLAlchemyError) as fault:
        raise CannotOpenError(where, _why(fault)) from fault
    return engine


def _pragmas(connection: object, _record: object) -> None:
    cursor = connection.cursor()  # type: ignore[attr-defined]  # the driver's own connection
    # Write-ahead log with full syncing: what is committed survives a pulled plug.
    for words in ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=5000"):
        cursor.execute(f"PRAGMA {words}")
    cursor.close()


def _bring_up_to_date(engine: Engine) -> None:
    with engine.connect() as connection:
        at = _schema_of(connection)
    if at == SCHEMA:
        return
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


def _why(fault: Exception) -> str:
    words = str(getattr(fault, "orig", None) or getattr(fault, "strerror", None) or fault)
    return words.splitlines()[0].rstrip(".")
