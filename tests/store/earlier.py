"""The database as an earlier program left it."""

from __future__ import annotations

from pathlib import Path

from alembic import command
from alembic.config import Config

from tundish.store import database


def take_back(schema: str, url: str = "") -> None:
    """Take the user's database, or that at `url`, back to an earlier schema."""
    engine = database.open_engine(url)
    config = Config()
    config.set_main_option("script_location", str(Path(database.__file__).parent / "migrations"))
    config.set_main_option("path_separator", "os")
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.downgrade(config, schema)
    engine.dispose()
