"""Papers written by the command line."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from tundish.__main__ import main
from tundish.asked import begin_option
from tundish.catalogue.load import supplied_book
from tundish.cli.papers import write_papers
from tundish.documents import quote
from tundish.documents.block import FillIn
from tundish.estimate import estimate
from tundish.field import put
from tundish.issuing import as_draft
from tundish.store import logo
from tundish.store.codec import write_job
from tundish.store.keep import Store, demo_jobs


def test_papers_carry_the_logo_that_is_kept(tmp_path: Path, first_day: Path) -> None:
    image, kept = Image.new("RGB", (80, 40), (200, 30, 30)), BytesIO()
    image.save(kept, "JPEG")
    store = Store()
    logo.keep(store, kept.getvalue())
    store.close()
    assert main(["papers", "101", "--to", str(tmp_path / "papers")]) == 0
    written = list((tmp_path / "papers").glob("*.pdf"))
    assert written
    assert all(b"/Subtype /Image" in file.read_bytes() for file in written)


def test_a_letter_that_cannot_be_printed_is_said_for_each_paper_it_is_on(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "home"))
    job = next(each for each in demo_jobs() if each.number == "101")
    write_papers(put(job, "client.name", "Mrs 漢 כהן"), supplied_book(), tmp_path / "papers")
    told = [line for line in capsys.readouterr().err.splitlines() if "No type here has" in line]
    assert "Quote 101 כהן: No type here has 漢: printed as �" in told
    assert not any("כ" in line.split(": ", 1)[1] for line in told)


@pytest.fixture
def home(tmp_path: Path, first_day: Path) -> Path:
    return tmp_path


def papers(home: Path, *words: str, job: str = "101") -> set[str]:
    """The names of the PDFs that are written into a new folder."""
    to = home / f"papers-{len(list(home.iterdir()))}"
    assert main(["papers", job, "--to", str(to), *words]) == 0
    return {file.stem for file in to.glob("*.pdf")}


def test_what_is_not_issued_is_a_draft_and_what_is_has_its_number_and_letter(home: Path) -> None:
    first = papers(home)
    assert {name.endswith(" draft") for name in first} == {True}
    assert "Quote 101 Hathersby" in papers(home, "--issue", "quote")
    again = papers(home)
    assert "Quote 101 Hathersby" in again, "printed again it is what was issued"
    assert "Terms 101 Hathersby draft" in again
    store = Store()
    job_id = store.find("101") or 0
    opened, revision = store.open(job_id)
    assert opened.job is not None
    (paper,) = store.issued(job_id)
    assert (paper.key, paper.format, paper.revision, bool(paper.said), len(paper.offers)) == ("quote", "pdf", 1, True, 1)
    store.save(job_id, put(opened.job, "terms.labour_rate", Decimal(61)), revision, "set labour rate")
    store.close()
    assert "Quote 101a Hathersby draft" in papers(home)
    assert main(["papers", "101", "--to", str(home / "no"), "--issue", "quote"]) == 2
    assert not (home / "no").exists(), "refused before anything is written"
    assert "Quote 101a Hathersby" in papers(home, "--issue", "quote", "--why", "Dearer labour")
    store = Store()
    assert [(each.name, each.why) for each in store.issued(job_id)] == [
        ("Quote 101 Hathersby", ""),
        ("Quote 101a Hathersby", "Dearer labour"),
    ]
    assert [each.number for each in store.numbers("quote")] == ["101", "101a"]
    store.close()


def test_a_draft_says_so_on_every_page_and_where_it_would_be_signed(home: Path) -> None:
    made = as_draft(quote.build(estimate(demo_jobs()[0], supplied_book())))
    assert (made.number, made.foot.startswith("Draft, not issued · ")) == ("101, draft", True)
    sign = made.blocks[-1]
    assert isinstance(sign, FillIn)
    assert "quote 101, draft, at £" in sign.title


def test_the_reason_kept_with_the_job_is_used_up(home: Path) -> None:
    papers(home, "--issue", "quote")
    store = Store()
    job_id = store.find("101") or 0
    job, revision = store.open(job_id)[0].job, store.open(job_id)[1]
    assert job is not None
    store.save(job_id, replace(put(job, "terms.labour_rate", Decimal(61)), why_revised="You asked"), revision, "set")
    store.close()
    papers(home, "--issue", "quote")
    store = Store()
    kept = store.open(job_id)[0].job
    assert kept is not None
    assert (kept.why_revised, store.issued(job_id)[-1].why) == ("", "You asked")
    store.close()


def test_what_cannot_be_issued_is_said(home: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = home / "one.tundish"
    file.write_bytes(write_job(begin_option(demo_jobs()[0])))
    assert main(["papers", str(file), "--to", str(home / "a"), "--issue", "quote", "--issue", "boat"]) == 2
    said = capsys.readouterr().err
    assert '"boat" is none of its papers: quote, terms' in said
    assert "is a file: papers are issued of a job in the database" in said
    assert "has an option that is being made" in said
    assert all(name.endswith(" draft") for name in papers(home, job=str(file)))
