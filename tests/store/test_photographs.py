"""Photographs are kept with their job, go with its file, and a damaged one stops nothing."""

from __future__ import annotations

import base64
import json
from dataclasses import replace

import pytest

from tundish.estimate import Job
from tundish.layout.design import RoomPlan
from tundish.store.codec import read_job, write_job
from tundish.store.keep import Store
from tundish.store.photographs import MOST_BYTES, from_section, key_of, named_in
from tundish.survey.shape import Photograph
from tundish.survey.survey import Survey

BODY = b"\xff\xd8\xff" + bytes(range(256)) * 20
KEY = key_of(BODY)
JOB = Job(number="9", rooms=(RoomPlan(survey=Survey(photographs=(Photograph(picture=KEY, note="stack"), Photograph(picture=KEY)))),))


def test_a_picture_is_kept_once_with_its_job_and_comes_back_to_the_byte(store: Store) -> None:
    kept = store.add(JOB)
    store.keep_photographs(kept.id, {KEY: BODY})
    store.keep_photographs(kept.id, {KEY: BODY})
    assert store.photograph(kept.id, KEY) == BODY
    assert store.photograph(kept.id, "other") is None
    assert store.photograph(kept.id + 1, KEY) is None
    assert dict(store.open(kept.id)[0].pictures) == {KEY: BODY}


def test_a_job_that_was_saved_by_two_keeps_its_pictures_in_both(store: Store) -> None:
    kept = store.add(JOB, {KEY: BODY})
    store.save(kept.id, replace(JOB, title="mine"), kept.revision, "mine")
    clash = store.save(kept.id, replace(JOB, title="theirs"), kept.revision, "theirs")
    assert clash.clash
    assert store.photograph(clash.id, KEY) == store.photograph(kept.id, KEY) == BODY


def test_the_job_file_carries_the_pictures_it_names_and_no_others() -> None:
    stray = b"\xff\xd8\xff stray"
    opened = read_job(write_job(JOB, {KEY: BODY, key_of(stray): stray}))
    assert opened.job == JOB
    assert not opened.notes
    assert dict(opened.pictures) == {KEY: BODY}
    assert named_in(JOB) == (KEY,)


@pytest.mark.parametrize(
    "given",
    [
        {KEY: "not base64"},
        {KEY: 7},
        {KEY: base64.b64encode(BODY[:-1]).decode()},
        {key_of(b"GIF89a"): base64.b64encode(b"GIF89a").decode()},
        {KEY: "A" * (MOST_BYTES * 2)},
        ["a list"],
        "words",
    ],
)
def test_a_damaged_picture_is_left_out_and_told(given: object) -> None:
    made, left_out = from_section(given)
    assert made == {}
    assert "left out" in left_out[0].text
    whole = json.loads(write_job(JOB)) | {"pictures": given}
    opened = read_job(json.dumps(whole).encode())
    assert opened.job == JOB
    assert len(opened.notes) == 1


def test_a_file_nested_past_reason_is_refused_though_its_words_hold_brackets() -> None:
    assert read_job(b'{"format": "tundish job", "version": 1, "note": "' + b"[" * 100 + b'"}').job is not None
    assert "nested" in read_job(b'{"a": "' + b'\\"' * 10 + b'", "b": ' + b"[" * 50).problems[0].text
