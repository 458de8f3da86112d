"""No arguments: the window. Otherwise the command line."""

from __future__ import annotations

import sys


def main(words: list[str] | None = None) -> int:
    """Run the program; gives its exit code."""
    given = sys.argv[1:] if words is None else words
    if not given or given[0] == "--selfcheck":
        from tundish.desktop.app import run

        return run(given)
    from tundish.cli.commands import run as run_command

    return run_command(given)


if __name__ == "__main__":
    sys.exit(main())
