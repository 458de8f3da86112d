"""Checks: will it run, fit and hold?"""

from __future__ import annotations

from typing import Final

from PySide6.QtWidgets import QHBoxLayout, QWidget

from tundish import measure
from tundish.desktop.cells import Cell, Column, Gauge, Group, Row
from tundish.desktop.estimate_page import EstimatePage
from tundish.desktop.tables import TWO_LINES, Table, TableCard
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.estimate import Estimate, Job
from tundish.field import NoSuchInputError, Problem, describe
from tundish.figure import Figure
from tundish.rules.rule import Finding

COLUMNS: Final = (
    Column("", 38),
    Column("Check"),
    Column("Has", 110, right=True),
    Column("Needs", 130),
    Column("Gauge", 140),
    Column("Room to spare", 100, right=True),
    Column("Set by", 84, right=True),
)
GROUPS: Final = ("Falls", "Joints", "Void", "Clearances", "Loads and tiles", "Water", "Noise")
GLYPHS: Final = {"passes": ("tick", "settled"), "look": ("warn", "tbc"), "fails": ("fails", "fails"), "cannot tell": ("dash", "ink2")}
WORDS: Final = {"passes": "passes", "look": "to look at", "fails": "fails", "cannot tell": "cannot tell"}
HALF: Final = 0.5
SMALL: Final = 100.0
"""Lengths under this are shown to a tenth where they are not whole, mm."""
UNUSABLE: Final = "Could not be used as typed"


class ChecksPage(EstimatePage):
    """Every check of the job with what there is, what is needed and what is to spare."""

    help_sentences = (
        "A dark tick on the gauge is the need; a bar past it passes.",
        "Choose a check to see how it was worked out and what would mend it.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Checks", "Will it run, fit and hold?", workspace)
        self._only_look = False
        self._only = button("Only what needs a look", "warn")
        self._only.setCheckable(True)
        self._only.toggled.connect(self._filter)
        self.add_tool(self._only)
        self.table = Table("Checks", COLUMNS, row_high=TWO_LINES)
        self.table.give_way(("Set by", "Gauge"))  # who sets it, and how near it is, Where from tells too
        self.table.row_chosen.connect(self.figure_asked)
        self.table.row_asked.connect(self.figure_asked)
        self.table.set_empty("No checks yet", "Add a pan or a basin on Setting out, and they are made.", "checks")
        card = TableCard(self.table)
        self._foot = label("", "table")
        card.set_foot(_foot(self._foot))
        self.set_body(card)
        self.begin()

    def _filter(self, only: bool) -> None:
        self._only_look = only
        self.show_again()

    def show_estimate(self, estimate: Estimate) -> None:
        """Every check by group, what could not be used as typed first."""
        several = len(estimate.job.rooms) > 1
        rows: dict[str, list[Row]] = {group: [] for group in GROUPS}
        for place, finding in enumerate(estimate.findings):
            if not self._only_look or finding.state != "passes":
                rows[finding.group].append(_row(place, finding, several=several))
        groups = [Group(group, group, tuple(rows[group])) for group in GROUPS if rows[group]]
        if estimate.problems:
            groups.insert(0, Group(UNUSABLE, UNUSABLE, tuple(_problem_row(each) for each in estimate.problems), note_tone="fails"))
        self.table.set_groups(tuple(groups))
        self._foot.setText(summary(estimate.findings))


def _problem_row(problem: Problem) -> Row:
    """What could not be used as it was typed, under the name of its box; choosing it shows the input."""
    blank = tuple(Cell() for _ in COLUMNS[2:-1])
    name = _box_name(problem.path)
    return Row(
        f"input:{problem.path}",
        (
            Cell(glyph="fails", glyph_tone="fails", spoken="cannot be used"),
            Cell(name, strong=True, below=problem.text),
            *blank,
            Cell("Typed", tone="ink2"),
        ),
    )


def _box_name(path: str) -> str:
    try:
        return describe(Job, path).label if path else "The job"
    except NoSuchInputError:
        return path


def summary(findings: tuple[Finding, ...]) -> str:
    """The checks counted, in words."""
    tbc = sum(finding.state == "passes" and finding.tbc for finding in findings)
    counts = [(sum(finding.state == "passes" for finding in findings) - tbc, "pass"), (tbc, "pass on TBC figures")]
    counts += [
        (sum(finding.state == state for finding in findings), words)
        for state, words in (("look", "to look at"), ("fails", "fail"), ("cannot tell", "cannot tell"))
    ]
    return f"{len(findings)} checks: {', '.join(f'{count} {words}' for count, words in counts if count)}"


def _row(place: int, finding: Finding, *, several: bool) -> Row:
    glyph, tone = GLYPHS[finding.state]
    words = WORDS[finding.state]
    if finding.state == "passes" and finding.tbc:
        glyph, tone, words = "half", "tbc", "passes on figures to be confirmed"
    place_words = finding.place if several else finding.place.partition(", ")[2]
    below = " · ".join(part for part in (place_words, finding.verdict_words) if part)
    return Row(
        f"check:{place}",
        (
            Cell(glyph=glyph, glyph_tone=tone, spoken=words),
            Cell(finding.title, strong=True, below=below),
            Cell(_amount(finding.has), strong=True, below=_reach(finding.has), below_tone="tbc") if finding.has else Cell("–", strong=True),
            Cell(_needs(finding), tone="ink2"),
            Cell(gauge=_gauge(finding, tone), spoken=words),
            _spare(finding, tone),
            Cell(finding.set_by, tone="ink2"),
        ),
    )


def _reach(figure: Figure) -> str:
    """What a number of a row may still be, as exact as the number itself."""
    ends = [_shown(end, figure.unit) for end in (figure.low, figure.high)]
    return "" if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def _needs(finding: Finding) -> str:
    least, most = finding.least, finding.most
    if least and most:
        return f"{_shown(least.value, least.unit)} to {_amount(most)}"
    if least:
        return f"at least {_amount(least)}"
    return f"at most {_amount(most)}" if most else "–"


def _spare(finding: Finding, tone: str) -> Cell:
    if finding.spare is None or finding.has is None:
        return Cell("–", tone="ink2")
    if finding.spare < 0:
        return Cell(f"{_shown(-finding.spare, finding.has.unit)} short", tone=tone, strong=True)
    if finding.least and finding.most:
        return Cell("in range", strong=True)
    return Cell(_shown(finding.spare, finding.has.unit), strong=True)


def _gauge(finding: Finding, tone: str) -> Gauge | None:
    has, least, most = finding.has, finding.least, finding.most
    if has is None or (least is None and most is None):
        return None
    if least and most and most.value > least.value:
        span = (most.value - least.value) * 2
        needle = min(max((has.value - least.value) / span + HALF / 2, 0.0), 1.0)
        return Gauge(low=HALF / 2, high=1 - HALF / 2, needle=needle, tone=tone)
    if least and least.value > 0:
        return Gauge(met=max(has.value, 0.0) / least.value, tone=tone)
    if most and most.value > 0:
        return Gauge(met=most.value / has.value if has.value > 0 else 2.0, tone=tone)
    return Gauge(met=2.0 if finding.state == "passes" else HALF, tone=tone)


def _amount(figure: Figure) -> str:
    return _shown(figure.value, figure.unit) if figure.unit == "mm" else measure.show_amount(figure.value, figure.unit, with_unit=True)


def _shown(value: float, unit: str) -> str:
    """A number of a row; small lengths with a place more where they have one, so that has, needs and short agree to the eye."""
    if unit == "mm" and abs(value) < SMALL:
        return measure.show_number(value, 0 if value == round(value) else 1)
    return measure.show_amount(value, unit)


def _foot(words: QWidget) -> QWidget:
    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(12, 6, 12, 6)
    row.addWidget(label("Dark tick: what is needed. A bar past it passes.", "note", "ink2"))
    row.addStretch(1)
    row.addWidget(words)
    return made
