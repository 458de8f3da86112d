"""Settings: whose name is on the paper, how the window looks, where everything is kept."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QVBoxLayout, QWidget

from tundish import __version__
from tundish.catalogue.trader import COLOURS, Trader
from tundish.desktop import kept_look, tokens
from tundish.desktop.boxes import Box, NoteBox, TickBox
from tundish.desktop.chips import ChipRow, Choice
from tundish.desktop.chooser import Chooser
from tundish.desktop.forms import Form, FormRow
from tundish.desktop.kept_look import Chosen
from tundish.desktop.logo import Logo
from tundish.desktop.page import Page
from tundish.desktop.words import button, label
from tundish.desktop.workspace import Workspace
from tundish.field import fields_of

SCHEMES: Final = (("desktop", "As the desktop"), ("light", "Light"), ("dark", "Dark"))
MANY_LINES: Final = ("address", "terms")
WIDE: Final = 320


class SettingsPage(Page):
    """Three groups: your details, the look, and where it is kept. Each change is kept at once."""

    help_sentences = (
        "Your details stand at the head of every paper.",
        "For work in the sun use light with strong lines; for gloves and tired hands, roomy rows.",
        "Ctrl and + or − change the text size on any page.",
    )

    def __init__(self, workspace: Workspace) -> None:
        super().__init__("Settings", "Whose name is on the paper, and how should it look?")
        self._workspace = workspace
        self.form = Form("Settings")
        self.form.taken.connect(self._taken)
        self.logo = Logo(workspace)
        self._colours = ChipRow(fields_of(Trader)["colour"].label)
        self._add_trader()
        self._sizes, self._schemes = ChipRow("Text size"), ChipRow("Light or dark")
        self._roomy, self._strong = TickBox("Roomy rows: everything 44 high, for gloves"), TickBox("Strong lines: for bright light")
        self._add_look()
        self._add_place()
        card = QFrame()
        card.setProperty("kind", "card")
        inside = QVBoxLayout(card)
        inside.setContentsMargins(1, 1, 1, 1)
        inside.addWidget(self.form)
        self.set_body(card)
        self._show_look()

    def show_look(self) -> None:
        """Show the look again after it was changed by a key."""
        self._show_look()

    def _add_trader(self) -> None:
        self.form.add_group("Your details", "printed at the head of every paper")
        trader = self._workspace.book.trader
        for name, declared in fields_of(Trader).items():
            if declared.kind == "choice":
                continue
            box: Box | NoteBox = NoteBox(declared.label, lines=4) if name in MANY_LINES else Box(declared.label)
            row = FormRow(name, declared.label, box, box_wide=WIDE)
            box.setWhatsThis(declared.help)
            row.show_value(getattr(trader, name))
            self.form.add(row)
        self._colours.set_choices(tuple(Choice(each, each.capitalize()) for each in COLOURS), trader.colour)
        self._colours.chosen.connect(lambda colour: self._keep("colour", colour))
        self._colours.setWhatsThis(fields_of(Trader)["colour"].help)
        self.form.add_part(_labelled(self._colours.accessibleName(), self._colours))
        declared = fields_of(Trader)["vat_rounding"]
        rounded = Chooser(declared.label)
        rounded.show_choices(declared.options, 0)
        rounding = FormRow("vat_rounding", declared.label, rounded, box_wide=WIDE)
        rounded.setWhatsThis(declared.help)
        rounding.show_value(trader.vat_rounding)
        self.form.add(rounding)
        self.form.add_part(_labelled("Logo", self.logo.tools))
        self.form.add_part(_labelled("How papers begin", self.logo))

    def _add_look(self) -> None:
        self.form.add_group("Look")
        self._sizes.chosen.connect(self._take_look)
        self._schemes.chosen.connect(self._take_look)
        self._roomy.taken.connect(self._take_look)
        self._strong.taken.connect(self._take_look)
        self.form.add_part(_labelled("Text size", self._sizes))
        self.form.add_part(_labelled("Light or dark", self._schemes))
        self.form.add_part(_labelled("Rows", self._roomy))
        self.form.add_part(_labelled("Lines", self._strong))

    def _add_place(self) -> None:
        from tundish.store.database import FILE, home

        self.form.add_group("Where it is kept")
        where = label(str(home() / FILE), "body", wrap=True)
        folder = button("Show folder")
        folder.clicked.connect(self._show_folder)
        self.form.add_part(_labelled("Jobs, prices, stock", where))
        self.form.add_part(_labelled("", folder))
        self.form.add_part(_labelled("Version", label(f"Tundish {__version__}", "body")))

    def _keep(self, name: str, words: str) -> None:
        self._workspace.store.keep_trader(replace(self._workspace.book.trader, **{name: words}))
        self._workspace.book_has_changed()
        self.logo.draw()

    def _taken(self, name: str, words: str) -> None:
        self._keep(name, words)
        self.form.row(name).show_value(getattr(self._workspace.book.trader, name))

    def _take_look(self, _taken: str) -> None:
        choice = Chosen(self._schemes.taken(), int(self._sizes.taken()), self._roomy.isChecked(), self._strong.isChecked())
        kept_look.keep(self._workspace.store, choice)
        kept_look.wear(choice)

    def _show_look(self) -> None:
        choice = kept_look.chosen(self._workspace.store)
        self._sizes.set_choices(tuple(Choice(str(step), f"{step} %") for step in tokens.TEXT_STEPS), str(choice.percent))
        self._schemes.set_choices(tuple(Choice(key, words) for key, words in SCHEMES), choice.scheme)
        self._roomy.setChecked(choice.roomy)
        self._strong.setChecked(choice.strong)

    def _show_folder(self) -> None:
        from tundish.store.database import home

        QDesktopServices.openUrl(QUrl.fromLocalFile(str(home())))


def _labelled(words: str, part: QWidget) -> QWidget:
    """A row with its words where a form has them."""
    from tundish.desktop import look
    from tundish.desktop.form_heads import EDGE, LABEL, MARK

    made = QWidget()
    row = QHBoxLayout(made)
    row.setContentsMargins(look.now().px(EDGE), 5, look.now().px(EDGE), 5)
    row.setSpacing(0)
    name = label(words, "body")
    name.setFixedWidth(look.now().px(LABEL + MARK))
    row.addWidget(name)
    if isinstance(part, QLabel | ChipRow):
        row.addWidget(part, 1)
    else:
        row.addWidget(part)
        row.addStretch(1)
    return made
