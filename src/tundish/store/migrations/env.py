"""Runs the schema steps on the connection it is handed."""

from __future__ import annotations

from alembic import context

from tundish.store.tables import META

context.configure(connection=context.config.attributes["connection"], target_metadata=META, render_as_batch=True)
with context.begin_transaction():
    context.run_migrations()
