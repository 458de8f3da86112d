"""The rule book run over the rooms, and its needs merged into lines."""
