"""The command line, as it is typed."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from decimal import Decimal
from pathlib import Path

import jsonschema
import openpyxl
import pypdfium2  # type: ignore[import-untyped]  # it ships no types
import pytest

from tundish.__main__ import main
from tundish.catalogue.load import supplied_book
from tundish.cli.why import tree
from tundish.estimate import estimate
from tundish.figure import where_from
from tundish.store.codec import read_job
from tundish.store.keep import demo_jobs

INVERT = "rooms.0.survey.stack.branch_invert"


pytestmark = pytest.mark.usefixtures("first_day")


def refused(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What is said of a command that cannot be done."""
    assert main(list(words)) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "Traceback" not in said.err
    return said.err


def test_every_paper_of_a_job_is_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["papers", "101", "--to", str(tmp_path / "out")]) == 0
    files = {Path(line) for line in capsys.readouterr().out.splitlines()}
    assert files == set((tmp_path / "out").iterdir())
    kinds = {file.name.partition(" 101")[0].partition(",")[0] for file in files}
    assert kinds >= {
        *("Quote", "Heights we agree", "Setting-out sheet", "Drilling template", "Materials list", "Cut list", "Order list"),
        *("Survey sheet", "Closing sheet"),
    }
    assert {file.name.partition(" 101")[0] for file in files if file.suffix == ".dxf"} == {"Setting-out sheet", "Drilling template"}
    (calendar,) = [file for file in files if file.suffix == ".ics"]
    assert calendar.name.startswith("Programme 101")
    assert calendar.read_bytes().count(b"BEGIN:VEVENT") >= 1
    for file in files - {calendar}:
        if file.suffix == ".pdf":
            pdf = pypdfium2.PdfDocument(file)
            assert len(pdf) >= 1
            pdf.close()
        elif file.suffix == ".dxf":
            assert "SOIL-AND-WASTE" in file.read_text(encoding="utf-8")
        else:
            assert openpyxl.load_workbook(file).sheetnames


def test_failing_checks_give_one_and_the_quote_says_so(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["papers", "103", "--to", str(tmp_path)]) == 1
    assert "Fall of WC branch" in capsys.readouterr().err
    pdf = pypdfium2.PdfDocument(next(tmp_path.glob("Quote*.pdf")))
    text = "".join(page.get_textpage().get_text_range() for page in pdf)
    pdf.close()
    assert "Checks not passed yet" in text


def test_the_demonstration_is_written_a_folder_a_job(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["demo", "--to", str(tmp_path / "demo")]) == 0
    assert len(list((tmp_path / "demo").iterdir())) == 4
    assert "The papers are in" in capsys.readouterr().out


def test_show_is_for_people_too(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["show", "101"]) == 0
    said = capsys.readouterr().out
    assert "Fixing studs" in said
    assert "passes: Cloakroom" in said


def test_show_has_the_range_of_a_check_and_its_verdict(capsys: pytest.CaptureFixture[str]) -> None:
    main(["show", str(Path(__file__).parents[2] / "resources" / "jobs" / "102-family-bathroom.tundish")])
    said = capsys.readouterr().out
    assert "passes: Family bathroom, WC 1: Frame feet, has 20 (18 to 26) mm, passes whatever is decided." in said
    assert "Fall of WC branch, has 12 (10 to 18) mm, depends on: " in said


def test_show_json_holds_what_is_documented(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["show", "103", "--json"]) == 1
    shown = json.loads(capsys.readouterr().out)
    assert {"job", "rooms", "findings", "lines", "cuts", "purchases", "price"} <= set(shown)
    studs = shown["rooms"][0]["figures"]["wc-1.studs"]
    assert set(studs) == {"value", "low", "high", "unit", "tbc"}
    money = shown["price"]
    stages = sum(Decimal(row[key]) for rows, key in (("stages", "price"), ("beside", "amount")) for row in money[rows])
    assert stages == Decimal(money["before_vat"])
    assert sum(Decimal(stage["materials"]) for stage in money["stages"]) == Decimal(money["materials_cost"])
    assert sum(Decimal(each["amount"]) for each in money["payments"]) == Decimal(money["total"])
    documented = (Path(__file__).parents[2] / "docs" / "show-json.md").read_text(encoding="utf-8")
    assert {key for key in keys(shown) if f"`{key}`" not in documented} == set()
    jsonschema.validate(shown, SHOWN)


def keys(shown: object) -> set[str]:
    """Every key at every depth, but for the names of a room's figures, which are data."""
    if isinstance(shown, list):
        return {key for one in shown for key in keys(one)}
    if not isinstance(shown, dict):
        return set()
    inner = [one for key, value in shown.items() for one in (value.values() if key == "figures" else [value])]
    return set(shown) | {key for one in inner for key in keys(one)}


MONEY = {"type": "string", "pattern": r"^-?\d+(\.\d+)?$"}
NUMBER, WORDS, YES, COUNT = {"type": "number"}, {"type": "string"}, {"type": "boolean"}, {"type": "integer"}


def group(**inside: object) -> dict[str, object]:
    return {"type": "object", "required": list(inside), "additionalProperties": False, "properties": inside}


def several(**inside: object) -> dict[str, object]:
    return {"type": "array", "items": group(**inside)}


FIGURE = {"value": NUMBER, "low": NUMBER, "high": NUMBER, "unit": WORDS, "tbc": YES}
MAYBE = {"anyOf": [group(**FIGURE), {"type": "null"}]}
PLACES = {"type": "array", "items": COUNT}
SHEET = {"type": "array", "items": NUMBER, "minItems": 5, "maxItems": 5}
SHOWN = group(
    job=group(number=WORDS, title=WORDS, client=WORDS),
    rooms=several(name=WORDS, figures={"type": "object", "additionalProperties": group(**FIGURE)}),
    problems=several(path=WORDS, text=WORDS),
    findings=several(
        rule=WORDS,
        title=WORDS,
        place=WORDS,
        state={"enum": ["passes", "look", "fails", "cannot tell"]},
        tbc=YES,
        has=MAYBE,
        least=MAYBE,
        most=MAYBE,
        set_by=WORDS,
        source=WORDS,
        message=WORDS,
        verdict={"enum": ["always", "depends", "never", "cannot tell"]},
        verdict_words=WORDS,
    ),
    cautions=several(title=WORDS, words=WORDS),
    decisions=several(key=WORDS, title=WORDS, by=WORDS),
    lines=several(item=WORDS, name=WORDS, group=WORDS, own=YES, because=several(rule=WORDS, why=WORDS, amount=NUMBER), **FIGURE),
    cuts=several(
        item=WORDS,
        pieces=several(mark=WORDS, length=NUMBER, tbc=YES),
        plan={
            "type": "array",
            "items": {
                "anyOf": [
                    group(stock=WORDS, length=NUMBER, cuts=PLACES),
                    group(stock=WORDS, places={"type": "array", "items": SHEET}),
                ]
            },
        },
        cost_pence=COUNT,
        bound_pence=COUNT,
        proven=YES,
        unplaced=PLACES,
    ),
    purchases=several(
        item=WORDS,
        from_kits=NUMBER,
        from_rack=NUMBER,
        from_stock=NUMBER,
        priced=YES,
        cost=MONEY,
        picks=several(supplier=WORDS, code=WORDS, packs=COUNT, cost=MONEY),
    ),
    price=group(
        stages=several(
            stage=WORDS,
            materials=MONEY,
            mark_up=MONEY,
            hours=NUMBER,
            labour=MONEY,
            overhead=MONEY,
            contingency=MONEY,
            rounding=MONEY,
            price=MONEY,
            lasts=NUMBER,
            people=several(name=WORDS, hours=NUMBER, rate={"anyOf": [MONEY, {"type": "null"}]}, amount=MONEY, paid=MONEY),
        ),
        payments=several(when=WORDS, percent=WORDS, amount=MONEY),
        beside=several(kind=WORDS, name=WORDS, amount=MONEY),
        visits=several(
            number=COUNT,
            begins=WORDS,
            why=WORDS,
            days=COUNT,
            again_hours=NUMBER,
            by_hand=WORDS,
            journeys=MONEY,
            labour=MONEY,
            overhead=MONEY,
            to_least=MONEY,
            amount=MONEY,
        ),
        vat_lines=several(percent=MONEY, net=MONEY, vat=MONEY, charged=YES),
        before_vat=MONEY,
        kept_back=MONEY,
        cis_materials=MONEY,
        cis_hired=MONEY,
        cis_base=MONEY,
        break_even=MONEY,
        vat=MONEY,
        total=MONEY,
        materials_cost=MONEY,
        kept=MONEY,
        not_priced={"type": "array", "items": WORDS},
        labour_priced=YES,
        hours=NUMBER,
        days=COUNT,
    ),
)


def test_why_adds_up_to_the_tape(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["why", "101", "wc-1.studs"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("Fixing studs, WC 1: 345 mm")
    first = [line for line in lines if line.startswith("  ") and not line.startswith("    ")]
    amounts = [(line.strip()[0], int(line.partition(": ")[2].partition(" mm")[0])) for line in first]
    assert sum(-amount if sign == "−" else amount for sign, amount in amounts) == 345


def test_why_in_a_second_room_and_for_no_figure(capsys: pytest.CaptureFixture[str]) -> None:
    assert "wc-1.studs" in refused(capsys, "why", "101", "wc-9.studs")
    assert "no such room" in refused(capsys, "why", "101", "4:wc-1.studs")


@pytest.mark.parametrize(
    ("typed", "value"),
    [("176", 176), ("0.2 m", 200), ("100+23", 123), ('{"value": 28, "tbc": true}', 28), ("8 to 12", 10)],
)
def test_an_input_is_set_as_it_is_typed(typed: str, value: float, tmp_path: Path) -> None:
    out = tmp_path / "job.tundish"
    assert main(["set", "101", f"{INVERT}={typed}", "--out", str(out)]) == 0
    job = read_job(out.read_bytes()).job
    assert job is not None
    invert = job.rooms[0].survey.stack.branch_invert
    assert invert is not None
    assert (invert.value, invert.tbc) == (value, typed.startswith(("{", "8")))


def test_words_choices_flags_money_and_blanks_are_set(tmp_path: Path) -> None:
    out = tmp_path / "job.tundish"
    changes = ["number=88", "rooms.0.survey.wall.party=yes", "terms.labour_rate=£41.50", f"{INVERT}=", "terms.vat=not registered"]
    assert main(["set", "101", *changes, "--out", str(out)]) == 0
    job = read_job(out.read_bytes()).job
    assert job is not None
    assert (job.number, job.terms.labour_rate, job.terms.vat) == ("88", Decimal("41.50"), "not registered")
    assert job.rooms[0].survey.wall.party
    assert job.rooms[0].survey.stack.branch_invert is None


def test_without_out_the_job_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["set", "101", "number=88"]) == 0
    assert json.loads(capsys.readouterr().out)["number"] == "88"


def test_a_set_file_can_be_worked_on(tmp_path: Path) -> None:
    out = tmp_path / "job.tundish"
    main(["set", "101", "terms.labour_rate=0", "--out", str(out)])
    assert main(["papers", str(out), "--to", str(tmp_path / "papers")]) == 0


def test_all_that_is_wrong_with_a_set_is_said_and_nothing_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "job.tundish"
    said = refused(capsys, "set", "101", "no.such.path=1", f"{INVERT}=deep", "number", f"{INVERT}={{", "--out", str(out))
    assert all(words in said for words in ("no input called no.such.path", INVERT, "PATH=VALUE"))
    assert not out.exists()


def test_the_schema_takes_the_demonstration_jobs(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert main(["schema"]) == 0
    schema = json.loads(capsys.readouterr().out)
    jsonschema.Draft202012Validator.check_schema(schema)
    validator = jsonschema.Draft202012Validator(schema)
    for number in ("101", "102", "103", "104"):
        main(["set", number, f"number={number}", "--out", str(tmp_path / number)])
        validator.validate(json.loads((tmp_path / number).read_text(encoding="utf-8")))


def test_bad_files_are_answered_in_words(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    binary, broken = tmp_path / "picture.tundish", tmp_path / "broken.tundish"
    binary.write_bytes(bytes(range(256)))
    broken.write_text('{"format": "tundish job", "version": 1, "rooms": [{"survey": {"room": {"width": -1}}}]}')
    assert "not UTF-8" in refused(capsys, "show", str(binary))
    assert "rooms.0.survey.room.width" in refused(capsys, "show", str(broken))
    assert "neither a file" in refused(capsys, "show", str(tmp_path))
    assert "neither a file" in refused(capsys, "show", "x" * 5000)
    broken.write_text("")
    assert "empty" in refused(capsys, "papers", str(broken), "--to", str(tmp_path / "out"))
    with broken.open("wb") as file:
        file.truncate(3_000_000_000)
    assert "larger than 100 MB" in refused(capsys, "show", str(broken))
    assert "101" in refused(capsys, "show", "no-such-job")


def test_a_folder_that_cannot_be_made_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("")
    assert main(["papers", "101", "--to", str(tmp_path / "file" / "out")]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_usage_is_two(capsys: pytest.CaptureFixture[str]) -> None:
    for words in (["papers"], ["nonsense"], ["show"]):
        with pytest.raises(SystemExit) as ended:
            main(words)
        assert ended.value.code == 2
    capsys.readouterr()


def test_it_runs_as_a_module() -> None:
    said = subprocess.run([sys.executable, "-m", "tundish", "--version"], capture_output=True, text=True, check=True)
    assert said.stdout.startswith("tundish ")


def test_what_is_not_known_in_a_file_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = tmp_path / "job.tundish"
    file.write_text('{"format": "tundish job", "version": 1, "zebra": 1}')
    assert main(["show", str(file), "--json"]) == 0
    said = capsys.readouterr()
    assert "zebra: is not known" in said.err
    assert json.loads(said.out)["rooms"] == []


def test_a_folder_that_is_not_there_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    said = refused(capsys, "set", "101", "number=8", "--out", str(tmp_path / "none" / "job.tundish"))
    assert "the folder is not there" in said
    assert "there is a folder of that name" in refused(capsys, "set", "101", "number=8", "--out", str(tmp_path))


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ("terms.vat=none", "not one of"),
        ("terms.labour_rate=plenty", "not an amount of money"),
        ("terms.start=31/02/2026", "not in the calendar"),
        ("rooms=3", "is a group"),
        ("rooms.0.survey.wall.party=maybe", "should be true or false"),
        (f"{INVERT}=99999999", "over the most"),
        (f'{INVERT}={{"value": NaN}}', "not a number that can be measured"),
        ("=5", "PATH=VALUE"),
    ],
)
def test_what_cannot_be_taken_is_said_with_its_path(change: str, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    answer = refused(capsys, "set", "101", change)
    assert said in answer
    assert change.partition("=")[0] in answer


@pytest.mark.parametrize("figure", ["9:wc-1.studs", "9" * 5000 + ":wc-1.studs", ":", "", "0:"])
def test_a_figure_that_is_not_there_is_answered(figure: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert "is no figure of this job" in refused(capsys, "why", "101", figure)


def test_every_figure_of_a_job_has_a_where_from(capsys: pytest.CaptureFixture[str]) -> None:
    main(["show", "102", "--json"])
    shown = json.loads(capsys.readouterr().out)["rooms"]
    job = next(each for each in demo_jobs() if each.number == "102")
    for place, (told, room) in enumerate(zip(shown, estimate(job, supplied_book()).rooms, strict=True)):
        lines = {name: list(tree(where_from(room.figures[name]))) for name in told["figures"]}
        assert all(lines.values())
        name = max(lines, key=lambda each: len(lines[each]))
        assert main(["why", "102", f"{place}:{name}"]) == 0
        assert capsys.readouterr().out.splitlines() == lines[name]


def test_a_database_that_cannot_be_opened_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "no folder").write_text("a file")
    monkeypatch.setenv("TUNDISH_HOME", str(tmp_path / "no folder"))
    assert "cannot be opened" in refused(capsys, "show", "101")


def test_what_is_piped_is_utf8_whatever_the_terminal_takes() -> None:
    words = [sys.executable, "-m", "tundish", "why", "101", "wc-1.studs"]
    said = subprocess.run(words, capture_output=True, check=True, env={**os.environ, "PYTHONIOENCODING": "ascii"})
    assert "−" in said.stdout.decode()
    assert said.stderr == b""


@pytest.mark.skipif(sys.platform == "win32", reason="a closed pipe is another fault there")
def test_a_listener_that_has_gone_ends_it_quietly() -> None:
    words = [sys.executable, "-m", "tundish", "show", "102", "--json"]
    child = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    assert child.stdout is not None
    assert child.stderr is not None
    child.stdout.close()
    assert child.stderr.read() == b""
    child.stderr.close()
    assert child.wait() == 2


def test_show_says_what_is_open_and_what_it_decides(capsys: pytest.CaptureFixture[str]) -> None:
    main(["show", str(Path(__file__).parents[2] / "resources" / "jobs" / "102-family-bathroom.tundish"), "--decides"])
    said = capsys.readouterr().out
    assert "settle by first fix" in said
    assert "decides Fall of WC branch, Family bathroom, WC 1" in said
    by_the_floor, by_the_pan = said.split("Top of pan, finished floor (")
    assert "moves Fixing studs, WC 1: 351 to 359" in by_the_floor
    assert "moves Fixing studs, WC 1: now 353" in by_the_pan, "nobody has said from where to where the pan may be"


def test_a_choice_typed_as_this_or_that_is_left_open_and_says_what_it_decides(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = str(Path(__file__).parents[2] / "resources" / "jobs" / "102-family-bathroom.tundish")
    made = tmp_path / "open.tundish"
    assert main(["set", job, "rooms.0.survey.wall.construction=timber stud or brick", "--out", str(made)]) == 0
    capsys.readouterr()
    main(["show", str(made), "--decides"])
    said = capsys.readouterr().out
    assert "Construction (rooms.0.survey.wall.construction): timber stud or brick, settle by frames" in said
    assert "  with brick: " in said
    assert main(["set", job, "rooms.0.survey.wall.construction=timber stud or straw"]) == 2
    assert "straw" in capsys.readouterr().err


def test_show_compares_kit_and_loose_frame_by_frame(capsys: pytest.CaptureFixture[str]) -> None:
    main(["show", str(Path(__file__).parents[2] / "resources" / "jobs" / "101-cloakroom.tundish"), "--kits"])
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "WC 1: to buy, with carriage"
    assert said[1].startswith("  1. WC frame 1120, kit with cistern (chosen): £")
    loose = next(place for place, line in enumerate(said) if "WC frame 1120 with cistern, fittings apart" in line)
    assert "brings nothing else" in said[loose]
    assert "bought besides" in said[loose + 1]
    assert "Basin 1: to buy, with carriage" in said
