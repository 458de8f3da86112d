"""The base of the pages that show the estimate: each is drawn again when a new one comes, but not while it is hidden."""

from __future__ import annotations

from tundish.desktop.page import Page
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate


class EstimatePage(Page):
    """A page over the open job's estimate. It says in `show_estimate` what it shows, and calls `begin` once it is built."""

    def __init__(self, title: str, question: str, workspace: Workspace) -> None:
        super().__init__(title, question)
        self._workspace = workspace

    def begin(self) -> None:
        """Show the estimate there is, and every one that comes."""
        self.follow(self._workspace.estimate_ready, self.show_again)
        self.show_again()

    def show_again(self) -> None:
        """Show the estimate once more, after a filter or a choice on the page changed."""
        if self._workspace.estimate is not None:
            self.show_estimate(self._workspace.estimate)
        else:
            self.show_nothing()

    def show_estimate(self, estimate: Estimate) -> None:
        """Show this estimate; every page says how."""

    def show_nothing(self) -> None:
        """Show that there is no estimate yet; most pages are simply empty."""
