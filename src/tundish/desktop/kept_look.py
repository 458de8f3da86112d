"""The look as the user chose it, kept among the settings; "desktop" follows the desktop's own light or dark."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any, Final

from PySide6.QtWidgets import QApplication

from tundish.desktop import theme, tokens
from tundish.desktop.look import Look

if TYPE_CHECKING:
    from tundish.store.keep import Store

SETTING: Final = "look"
SCHEMES: Final = ("desktop", *tokens.SCHEMES)


@dataclass(frozen=True, slots=True)
class Chosen:
    """What was chosen."""

    scheme: str = "desktop"
    percent: int = 100
    roomy: bool = False
    strong: bool = False


def chosen(store: Store) -> Chosen:
    """What is kept; whatever in it cannot be used is as it comes."""
    body: Any = store.setting(SETTING)
    kept = body if isinstance(body, dict) else {}
    scheme, percent = kept.get("scheme"), kept.get("percent")
    return Chosen(
        scheme if scheme in SCHEMES else "desktop",
        percent if percent in tokens.TEXT_STEPS else 100,
        kept.get("roomy") is True,
        kept.get("strong") is True,
    )


def keep(store: Store, choice: Chosen) -> None:
    """Keep a choice."""
    store.keep_setting(SETTING, asdict(choice))


def wear(choice: Chosen) -> None:
    """Put the chosen look on the program, if it is another than the one worn."""
    from tundish.desktop import look

    app = QApplication.instance()
    if not isinstance(app, QApplication):
        return
    scheme = theme.desktop_scheme(app) if choice.scheme == "desktop" else choice.scheme
    wanted = Look(scheme, choice.percent, choice.roomy, choice.strong)
    if wanted != look.now():
        theme.apply(app, wanted)
