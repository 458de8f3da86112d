"""The job file: what is written comes back, and every fault is named."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tundish.estimate import Client, Job
from tundish.field import Entry
from tundish.figure import Known
from tundish.layout.design import Appliance, Design, RoomPlan
from tundish.layout.undecided import chosen
from tundish.pricing.terms import Terms
from tundish.store.codec import MOST_BYTES, job_schema, read_job, read_job_file, write_job
from tundish.survey.floor import Floor, Layer
from tundish.survey.survey import Shell, Survey

HEAD = {"format": "tundish job", "version": 1}


def a_job() -> Job:
    floor = Floor(build_up=(Layer(what="tile", thickness=Entry(10, Known.ASSUMED, 8, 12, tbc=True)),))
    survey = Survey(room=Shell(width=Entry(1740, when="2026-11-09", readings=(1742, 1740))), floor=floor)
    design = Design(appliances=(Appliance(kind="wc", name="WC 1", top=Entry(420, Known.AGREED)),))
    return Job(
        number="7", client=Client(name="<b>&A1 =1+1"), rooms=(RoomPlan(name="Cloakroom", survey=survey, design=design),), terms=Terms()
    )


JSON = st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text()


def file(**more: object) -> bytes:
    return json.dumps(HEAD | more).encode()


def only_problem(data: bytes) -> str:
    opened = read_job(data)
    assert opened.job is None
    (problem,) = opened.problems
    return f"{problem.path}: {problem.text}"


def test_a_job_comes_back_as_it_was_written() -> None:
    opened = read_job(write_job(a_job()))
    assert opened.job == a_job()
    assert opened.notes == ()


def test_all_problems_are_named_at_once_with_their_paths() -> None:
    opened = read_job(file(number=7, rooms=[{"name": "A", "survey": {"room": {"width": -5, "depth": "deep"}}}, "room"]))
    assert opened.job is None
    assert {problem.path for problem in opened.problems} == {"number", "rooms.0.survey.room.width", "rooms.0.survey.room.depth", "rooms.1"}
    assert all(problem.text for problem in opened.problems)


def test_what_is_not_known_is_kept_said_and_written_back() -> None:
    data = file(number="7", mood="good", rooms=[{"name": "A", "survey": {"roof": {"pitch": 40}}}])
    opened = read_job(data)
    assert opened.job is not None
    assert {note.path for note in opened.notes} == {"mood", "rooms.0.survey.roof"}
    again = json.loads(write_job(opened.job))
    assert again["mood"] == "good"
    assert again["rooms"][0]["survey"]["roof"] == {"pitch": 40}
    assert read_job(write_job(opened.job)).job == opened.job


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "empty"),
        (b"\xff\xfe{}", "UTF-8"),
        (b"{not json", "line 1"),
        (b"[]", "not a job file"),
        (b'{"format": "other"}', "not a job file"),
        (b'{"format": "tundish job", "version": 99}', "newer"),
        (b'{"format": "tundish job", "version": "1"}', "whole number"),
        (b'{"format": "tundish job", "version": true}', "whole number"),
        (b'{"format": "tundish job", "version": 1, "note": NaN}', "NaN"),
        (b'{"format": "tundish job", "version": 1, "number": "1", "number": "2"}', "twice"),
        (b'{"format": "tundish job", "version": 1, "a": ' + b"[" * 200 + b"]" * 200 + b"}", "deep"),
        (b'{"format": "tundish job", "version": 1, "a": ' + b"9" * 5000 + b"}", "cannot be read"),
        (b'{"format": "tundish job", "version": 1, "rooms": [{"survey": {"room": {"width": 1e400}}}]}', "inf"),
        (b" " * (MOST_BYTES + 1), "MB"),
    ],
)
def test_each_bad_file_is_answered_in_words(data: bytes, words: str) -> None:
    assert words in only_problem(data)


def test_brackets_in_words_do_not_count_as_depth() -> None:
    assert read_job(file(note="[" * 500 + '"\\')).job is not None


def test_a_file_with_a_byte_order_mark_opens() -> None:
    assert read_job(b"\xef\xbb\xbf" + write_job(a_job())).job == a_job()


def test_what_stood_in_a_place_that_has_gone_is_let_go() -> None:
    opened = read_job(file(rooms=[{"name": "A", "roof": 1}]))
    assert opened.job is not None
    fewer = Job(number="1", kept=opened.job.kept)
    assert json.loads(write_job(fewer)) == HEAD | {"number": "1"}


@given(
    st.recursive(
        st.none() | st.booleans() | st.floats() | st.text(),
        lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner),
        max_leaves=15,
    )
)
def test_nothing_in_a_file_raises(value: object) -> None:
    opened = read_job(json.dumps(HEAD | {"rooms": value, "terms": value}).encode())
    assert (opened.job is None) == bool(opened.problems)


@given(st.dictionaries(st.text().map(lambda name: f"x{name}"), st.recursive(JSON, st.lists, max_leaves=5), max_size=3))
@example({"x.y": 1, "x": {"y": 2}, "x~1y": 3})
def test_whatever_is_not_known_comes_back(more: dict[str, object]) -> None:
    data = json.dumps(HEAD | more | {"client": {"name": "A"} | more, "rooms": [more]}).encode()
    opened = read_job(data)
    assert opened.job is not None
    written = write_job(opened.job)
    assert json.loads(written) == json.loads(data)
    assert read_job(written).job == opened.job


@pytest.mark.parametrize("more", [b'"zebra": 1e999', b'"zebra": ["\\ud800"]', b'"\\ud800": 1', b'"note": "\\ud800"'])
def test_what_could_not_be_written_back_is_no_job(more: bytes) -> None:
    assert only_problem(b'{"format": "tundish job", "version": 1, ' + more + b"}").isprintable()


def test_a_file_is_read_from_where_it_lies(tmp_path: Path) -> None:
    file_ = tmp_path / "job.tundish"
    assert read_job_file(file_).problems[0].text == "cannot be read: no such file or directory"
    file_.write_bytes(write_job(a_job()))
    assert read_job_file(file_).job == a_job()


@given(st.binary(max_size=60))
def test_no_bytes_raise(data: bytes) -> None:
    assert read_job(data).job is None


def test_the_schema_names_every_group() -> None:
    properties = job_schema()["properties"]
    assert isinstance(properties, dict)
    assert {"format", "version", "client", "rooms", "terms"} <= set(properties)


def test_choices_left_open_come_back_and_a_file_without_them_has_none() -> None:
    plan = chosen(a_job().rooms[0], "survey.wall.construction", ("brick", "block", "concrete"))
    job = replace(a_job(), rooms=(plan,))
    written = write_job(job)
    assert read_job(written).job == job
    assert json.loads(written)["rooms"][0]["undecided"] == [
        {"choice": "survey.wall.construction", "other": "block"},
        {"choice": "survey.wall.construction", "other": "concrete"},
    ]
    plain = read_job(write_job(a_job())).job
    assert plain is not None
    assert plain.rooms[0].undecided == ()
    assert b"undecided" not in write_job(a_job())
