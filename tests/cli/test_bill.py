"""Bills looked at by the command line."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.store.a_bill import bill
from tundish.__main__ import main


def test_what_a_bill_is_and_what_of_it_does_not_agree(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "home"))
    file = tmp_path / "bill.xml"
    file.write_text(bill("PO-9"), encoding="utf-8")
    assert main(["bill", str(file)]) == 1
    said = capsys.readouterr().out.splitlines()
    assert said == ["Invoice M-7731 from Carrowdene, £50.00 to pay", "  it is for order PO-9, which none of yours is"]
    file.write_text("<!DOCTYPE x><x/>", encoding="utf-8")
    assert main(["bill", str(file)]) == 2
    assert "declares a document type" in capsys.readouterr().err
