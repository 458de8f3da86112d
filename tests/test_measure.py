"""What a box is read as, and how a value is shown: the two are each other's mirror."""

from __future__ import annotations

import math
from datetime import date
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tundish.measure import (
    Reading,
    places_that_add_up,
    read_date,
    read_day_ahead,
    read_money,
    read_number,
    read_range,
    read_several,
    show_amount,
    show_area,
    show_date,
    show_fall,
    show_hours,
    show_kg,
    show_length,
    show_metres,
    show_money,
    show_number,
    show_percent,
    show_range,
)

SIZES = st.floats(-1e9, 1e9)


def read_length(text: str) -> Reading[float]:
    return read_number(text, "mm")


def half_up(value: float, places: int) -> float:
    """Rounding as a school teaches it, by text and not by the program's own way."""
    return float(Decimal(repr(value)).quantize(Decimal(10) ** -places, ROUND_HALF_UP))


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1180", 1180),
        ("1,180", 1180),
        ("1,234,567.5", 1_234_567.5),
        (" 1180 mm ", 1180),
        ("12.5mm", 12.5),
        (".5", 0.5),
        ("5.", 5),
        ("2.38 m", 2380),
        ("0.1 m + 0.2 m", 300),
        ("2.38 Metres", 2380),
        ("238cm", 2380),
        ("210+12+13", 235),
        ("2400-38", 2362),
        ("2400 − 38", 2362),
        ("3*450", 1350),
        ("3 x 450", 1350),
        ("450x3", 1350),
        ("3 × 2.4 m", 7200),
        ("2.4 m x 3", 7200),
        ("2 x 3 x 10 cm", 600),
        ("100 + 2 x 50 - 3", 197),
        ("−28", -28),
        ("-28", -28),
        ("+28", 28),
        ("- 3*450", -1350),
        ("7' 9 3/4\"", 2381.25),
        ("7ft 9in", 2362.2),
        ("7 foot 9 inches", 2362.2),
        ("7'9.75\"", 2381.25),
        ("7′ 9″", 2362.2),
        ("7’ 9”", 2362.2),
        ("7' 9", 2362.2),
        ("7' 9''", 2362.2),
        ("7' + 9", 2142.6),
        ("7'", 2133.6),
        ("2 ft", 609.6),
        ('3/4"', 19.05),
        ('½"', 12.7),
        ("9¾ in", 247.65),
        ("2½ m", 2500),
        ('1 ⅛"', 28.575),
        ("3 m - 3/4 in", 2980.95),
        ("2380/2 mm", 1190),
    ],
)
def test_a_length_is_read_in_millimetres(text: str, mm: float) -> None:
    assert read_length(text) == Reading(mm, "", read_length(text).note)


@pytest.mark.parametrize(
    ("text", "note"),
    [
        ("1,180", ""),
        ("1180 mm", ""),
        ("−28", ""),
        (" 2.38   m ", "2.38 m"),
        ("210+12", "210+12"),
        ("3 × 450", "3 × 450"),
        ("7’ 9”", "7’ 9”"),
        ('½"', '½"'),
    ],
)
def test_a_sum_or_another_unit_is_kept_as_it_was_typed(text: str, note: str) -> None:
    assert read_length(text).note == note


@pytest.mark.parametrize("text", ["", "   ", "–", " – "])
def test_a_blank_box_is_no_number_and_no_problem(text: str) -> None:
    assert read_length(text) == Reading()
    assert read_money(text) == Reading()
    assert read_date(text) == Reading()
    assert read_range(text).value is None
    assert not read_range(text).problem


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("abc", '"abc" is not a length'),
        ("210+wide", '"wide" is not a length'),
        ("nan", '"nan" is not a length'),
        ("inf", '"inf" is not a length'),
        ("1e400", '"1e400" is not a length'),
        ("1_000", '"1_000" is not a length'),
        ("٣", '"٣" is not a length'),
        ("12 12", '"12 12" is not a length'),
        ("12 fm", '"12 fm" is not a length'),
        ("12 kg", '"12 kg" is not a length'),
        ("7ft 9mm", '"7ft 9mm" is not a length'),
        ("__import__('os')", "is not a length"),
        ("(1)", '"(1)" is not a length'),
        ("2**9", "a number is missing beside a sign"),
        ("12++3", "a number is missing beside a sign"),
        ("+", "a number is missing beside a sign"),
        ("12+", "a number is missing beside a sign"),
        ("12,5", "a decimal has a full stop"),
        ("1,18", "a comma parts thousands"),
        ("3/4", '"3/4" says no unit: write 3/4" or 3/4 mm'),
        ('3/0"', "nothing divides by 0"),
        ("2 m x 3 m", "a length times a length"),
        ("7'-9\"", "leave out the hyphen, or put spaces round it"),
        ('9-3/4"', "leave out the hyphen, or put spaces round it"),
        ("7ft-9in", "leave out the hyphen, or put spaces round it"),
        ("9" * 60, '999…" is far too large'),
        ("1" * 201, "201 characters long"),
    ],
)
def test_nonsense_is_refused_in_words_that_name_it(text: str, told: str) -> None:
    found = read_length(text)
    assert found.value is None
    assert told in found.problem
    assert len(found.problem) < 140


@given(st.text(max_size=20) | st.text("0123456789.,+-−*x×/ '\"½mcft–…o", max_size=30))
def test_whatever_is_typed_gives_a_number_or_words_and_never_both(text: str) -> None:
    for found in (read_length(text), read_number(text, "kg"), read_range(text), read_money(text), read_date(text), read_number(text, "%")):
        assert found.value is None or not found.problem
        assert not isinstance(found.value, float) or math.isfinite(found.value)


@given(st.lists(st.decimals(0, 10_000, places=2), min_size=1, max_size=6), st.data())
def test_a_sum_is_worked_as_on_paper(terms: list[Decimal], data: st.DataObject) -> None:
    signs = data.draw(st.lists(st.sampled_from("+-"), min_size=len(terms), max_size=len(terms)))
    text = "".join(f" {sign} {term}" for sign, term in zip(signs, terms, strict=True))
    expected = sum((term if sign == "+" else -term for sign, term in zip(signs, terms, strict=True)), Decimal(0))
    assert read_length(text).value == float(expected)


@pytest.mark.parametrize(
    ("text", "unit", "value"),
    [
        ("38.5 kg", "kg", 38.5),
        ("500 g", "kg", 0.5),
        ("1.5 l", "ml", 1500),
        ("90 min", "h", 1.5),
        ("1 1/2", "h", 1.5),
        ("2 hours", "h", 2),
        ("2 m2", "m²", 2),
        ("2 sq m", "m²", 2),
        ("12 kg/m2", "kg/m²", 12),
        ("4.0 kN", "kN", 4),
        ("2380 mm", "m", 2.38),
        ("2.38", "m", 2.38),
        ("7 ft", "m", 2.1336),
        ("3 each", "each", 3),
        ("3 x 4", "", 12),
        ("3 + 4", "each", 7),
    ],
)
def test_a_number_takes_its_own_unit_and_others_of_its_kind(text: str, unit: str, value: float) -> None:
    assert read_number(text, unit).value == value


@pytest.mark.parametrize(("text", "unit"), [("3 kg", "each"), ("3 bags", ""), ("7' 9\"", "kg"), ("1 l", "kg"), ("3 m", "m²")])
def test_a_unit_of_another_kind_is_refused(text: str, unit: str) -> None:
    assert read_number(text, unit).value is None
    assert read_number(text, unit).problem.startswith(f'"{text}" is not a')


@pytest.mark.parametrize(("text", "value"), [("15", 15), ("15 %", 15), ("17.5 per cent", 17.5), ("10+5", 15)])
def test_per_cent(text: str, value: float) -> None:
    assert read_number(text, "%").value == value


@pytest.mark.parametrize(
    ("text", "low", "value", "high"),
    [
        ("8 to 12", 8, 10, 12),
        ("8–12", 8, 10, 12),
        ("8…12 mm", 8, 10, 12),
        ("8..12", 8, 10, 12),
        ("8...12", 8, 10, 12),
        ("8 TO 12", 8, 10, 12),
        ("450", 450, 450, 450),
        ("12-8", 4, 4, 4),
        ("2 to 2.5 m", 2000, 2250, 2500),
        ('7/8 to 1"', 22.225, 23.8125, 25.4),
        ("7 to 7'6\"", 2133.6, 2209.8, 2286),
        ("210+12 to 24 cm", 222, 231, 240),
        ("0.5 m to 600", 500, 550, 600),
        ("−2 to 2", -2, 0, 2),
        ("8 to 10+2", 8, 10, 12),
    ],
)
def test_a_range_has_its_middle_for_value(text: str, low: float, value: float, high: float) -> None:
    found = read_range(text)
    assert (found.low, found.value, found.high, found.problem) == (low, value, high, "")


def test_a_range_in_another_unit_keeps_what_was_typed() -> None:
    assert not read_range("8 to 12").note
    assert read_range("8  to 12 cm").note == "8 to 12 cm"
    assert read_range("£8 to £12", "£").high == 12


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("12 to 8", '"12 to 8" runs backwards: write the smaller first'),
        ("8 to", '"8 to" is not a range such as 8 to 12'),
        ("–5", '"–5" is not a range'),
        ("8 to 9 to 10", "is not a range"),
        ("x to 3", '"x" is not a length'),
        ("3 to x", '"x" is not a length'),
        ("top", '"top" is not a length'),
        ("8 to 12 " * 40, "320 characters long"),
    ],
)
def test_half_a_range_is_refused(text: str, told: str) -> None:
    found = read_range(text)
    assert (found.low, found.value, found.high) == (None, None, None)
    assert told in found.problem


@pytest.mark.parametrize(
    ("text", "pounds"),
    [
        ("£1,387.00", "1387"),
        ("38.5", "38.5"),
        ("£ 38.50", "38.50"),
        ("−£12.50", "-12.5"),
        ("85p", "0.85"),
        ("3 x £12.40", "37.20"),
        ("0.1 + 0.2", "0.3"),
        ("1.2345", "1.2345"),
    ],
)
def test_money_is_read_to_the_last_digit(text: str, pounds: str) -> None:
    found = read_money(text)
    assert isinstance(found.value, Decimal)
    assert found.value == Decimal(pounds)


def test_money_that_is_none() -> None:
    assert read_money("dear").problem == '"dear" is not an amount of money'
    assert read_money("£").value is None
    assert read_money("3 x £12.40").note == "3 x £12.40"


@pytest.mark.parametrize(
    "text",
    [
        "2026-12-03", "3 Dec 2026", "3 december 2026", "3rd Dec, 2026", "Thu 3 Dec 2026", "thursday, 3 dec 26", "3/12/26", "3/12/2026",
        "3.12.2026", "3-12-26", "03/12/2026", "3dec26", " 3  Dec  2026 ",
    ],
)  # fmt: skip
def test_a_day_is_read_day_first(text: str) -> None:
    assert read_date(text) == Reading("2026-12-03")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("soon", '"soon" is not a day such as 3 Dec 2026 or 3/12/26'),
        ("3 Foo 2026", "is not a day such as"),
        ("3 De 2026", "is not a day such as"),
        ("12/25/26", '"12/25/26" is not in the calendar'),
        ("31 Feb 2026", "is not in the calendar"),
        ("0/0/26", "is not in the calendar"),
        ("3 Dec", '"3 Dec" says no year'),
        ("Wed 3 Dec 2026", 'Thu 3 Dec 2026 is what that day would be, not "Wed"'),
        ("3/12/0026", "is not a day such as"),
        ("9" * 300, '999…" is not a day such as'),
    ],
)
def test_a_day_that_is_none(text: str, told: str) -> None:
    assert read_date(text).value is None
    assert told in read_date(text).problem


def test_a_year_may_be_given_for_days_typed_without() -> None:
    assert read_date("Thu 3 Dec", 2026).value == "2026-12-03"
    assert read_date("3/12", 2026).value == "2026-12-03"
    assert read_date("3 Dec 25", 2026).value == "2025-12-03"


@pytest.mark.parametrize(
    ("shown", "expected"),
    [
        (show_length(1161), "1,161"),
        (show_length(1161.4), "1,161"),
        (show_length(12.5), "12.5"),
        (show_length(-12.5), "−12.5"),
        (show_length(352.4999999), "352.5"),
        (show_length(352.51), "353"),
        (show_length(-28), "−28"),
        (show_length(28, sign=True), "+28"),
        (show_length(-28, sign=True), "−28"),
        (show_length(0, sign=True), "0"),
        (show_length(-0.3), "0"),
        (show_number(2.5), "3"),
        (show_number(-2.5), "−3"),
        (show_number(2.675, 2), "2.68"),
        (show_number(1.005, 2), "1.01"),
        (show_number(12.3456789, None), "12.345679"),
        (show_number(1_000_000, None), "1,000,000"),
        (show_number(1e300)[:8], "1,000,00"),
        (show_metres(9055), "9.06"),
        (show_metres(1_234_560), "1,234.56"),
        (show_area(4.145), "4.15"),
        (show_kg(38.45), "38.5"),
        (show_fall(25, 1050), "25 in 1,050"),
        (show_fall(12.5, 600), "12.5 in 600"),
        (show_money(Decimal(1387)), "£1,387.00"),
        (show_money(Decimal("1387.005"), sign=False), "1,387.01"),
        (show_money(Decimal("-12.5")), "−£12.50"),
        (show_money(Decimal("-12.5"), sign=False), "−12.50"),
        (show_hours(36.4), "36.5"),
        (show_hours(36.25), "36.5"),
        (show_hours(8), "8.0"),
        (show_percent(15), "15 %"),
        (show_percent(13.04), "13 %"),
        (show_percent(17.5), "17.5 %"),
        (show_date("2026-12-03"), "Thu 3 Dec 2026"),
        (show_date("2026-12-03", with_year=False), "Thu 3 Dec"),
        (show_range(8, 12), "8 to 12"),
        (show_range(8, 8.1), "8"),
        (show_range(1.5, 2.25, "m"), "1.50 to 2.25"),
    ],
)
def test_a_value_is_shown_the_way_the_trade_writes_it(shown: str, expected: str) -> None:
    assert shown == expected


@pytest.mark.parametrize(
    ("value", "unit", "bare", "beside"),
    [
        (1161.2, "mm", "1,161", "1,161 mm"),
        (9.055, "m", "9.06", "9.06 m"),
        (4.145, "m²", "4.15", "4.15 m²"),
        (38.45, "kg", "38.5", "38.5 kg"),
        (4, "kN", "4.00", "4.00 kN"),
        (310.4, "ml", "310", "310 ml"),
        (36.5, "h", "36.5", "36.5 h"),
        (15, "%", "15", "15 %"),
        (23.81, "mm/m", "23.8", "23.8 mm/m"),
        (12, "kg/m²", "12.0", "12.0 kg/m²"),
        (0.456, "l/s", "0.46", "0.46 l/s"),
        (1387, "£", "1,387.00", "£1,387.00"),
        (4, "each", "4", "4 each"),
        (2.255, "each", "2.26", "2.26 each"),
        (0.2, "", "0.2", "0.2"),
    ],
)
def test_each_unit_has_its_own_places(value: float, unit: str, bare: str, beside: str) -> None:
    assert show_amount(value, unit) == bare
    assert show_amount(value, unit, with_unit=True) == beside


def test_what_is_blank_is_a_dash_and_never_nought() -> None:
    blanks = [show(None) for show in (show_number, show_length, show_metres, show_area, show_kg, show_hours, show_percent)]
    blanks += [show_amount(None, unit, with_unit=True) for unit in ("mm", "h", "£", "%", "kg", "each", "")]
    blanks += [show_fall(None, 1), show_fall(1, None), show_range(None, 1), show_range(1, None), show_money(None), show_date("")]
    assert set(blanks) == {"–"}


@given(SIZES, st.integers(0, 6))
def test_reading_what_was_shown_gives_the_rounded_value(value: float, places: int) -> None:
    assert read_number(show_number(value, places)).value == half_up(value, places)
    assert read_number(show_number(value, None)).value == half_up(value, 6)


@given(st.integers(-2_000_000, 2_000_000))
def test_a_length_in_halves_survives_the_screen(halves: int) -> None:
    assert read_length(show_length(halves / 2)).value == halves / 2
    assert read_length(show_length(halves / 2, sign=True)).value == halves / 2
    assert read_number(show_percent(halves / 2), "%").value == halves / 2


@given(st.decimals(-(10**6), 10**6, places=4))
def test_money_read_from_paper_is_money_to_the_penny(amount: Decimal) -> None:
    expected = amount.quantize(Decimal("0.01"), ROUND_HALF_UP)
    assert read_money(show_money(amount)).value == expected
    assert read_money(show_money(amount, sign=False)).value == expected


@given(st.dates(date(1900, 1, 1), date(2199, 12, 31)))
def test_a_day_read_from_paper_is_that_day(day: date) -> None:
    assert read_date(show_date(str(day))).value == str(day)
    assert read_date(str(day)).value == str(day)


@given(st.floats(0, 5000), st.floats(0, 5000), st.sampled_from(["mm", "m", "kg", "h", "each"]))
def test_a_range_read_from_the_screen_is_the_range_as_shown(one: float, other: float, unit: str) -> None:
    low, high = sorted((one, other))
    found = read_range(show_range(low, high, unit), unit)
    assert found.low == read_number(show_amount(low, unit), unit).value
    assert found.high == read_number(show_amount(high, unit), unit).value


@pytest.mark.parametrize(
    ("terms", "total", "places"),
    [
        ([1, 2], 3, 0),
        ([12.5, 12.5], 25, 1),
        ([420, -95, 28], 353, 0),
        ([1.25, 1.25], 2.5, 2),
        ([0.333, 0.333, 0.334], 1, 3),
        ([0.4, 0.4, 0.4], 1.2, 1),
        ([0.3333] * 3, 0.9999, 3),
        ([], 0, 0),
        ([1], 2, 3),
    ],
)
def test_a_column_is_shown_with_the_fewest_places_that_add_up(terms: list[float], total: float, places: int) -> None:
    assert places_that_add_up(terms, total) == places


@given(st.lists(st.integers(-(10**6), 10**6), max_size=8))
def test_a_column_of_thousandths_always_adds_up(thousandths: list[int]) -> None:
    terms = [each / 1000 for each in thousandths]
    total = sum(thousandths) / 1000
    places = places_that_add_up(terms, total)
    shown = [Decimal(repr(half_up(each, places))) for each in (*terms, total)]
    assert sum(shown[:-1]) == shown[-1]


@pytest.mark.parametrize(
    ("text", "readings"),
    [
        ("2380 2376 2383", (2380, 2376, 2383)),
        ("2380; 2376; 2383", (2380, 2376, 2383)),
        ("2,380, 2,376, 2,383", (2380, 2376, 2383)),
        ("2,380 2,376", (2380, 2376)),
        ("2380; 2.376 m; 7' 10\"", (2380, 2376, 2387.6)),
        ("210+12; 225", (222, 225)),
        ("238 240", (238, 240)),
        ("95.5 96", (95.5, 96)),
        ("2380;", (2380,)),
        ("2380", ()),
        ('9 3/4"', ()),
        ("2 to 3", ()),
        ("1,180", ()),
        ("", ()),
    ],
)
def test_several_readings_of_one_thing_are_kept_apart(text: str, readings: tuple[float, ...]) -> None:
    assert read_several(text) == readings


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("2 380", '"2 380" may be one number or 2: write 2380, or 2; 380'),
        ("2380; wide", '"wide" is not a length'),
        ("2380; 12 kg", '"12 kg" is not a length'),
    ],
)
def test_readings_that_cannot_be_told_apart_are_asked_for_again(text: str, told: str) -> None:
    assert read_several(text) == told


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("Thursday", "2026-11-26"),
        ("wed", "2026-12-02"),
        ("Tue", "2026-12-01"),
        ("3 Dec", "2026-12-03"),
        ("25 Nov", "2026-11-25"),
        ("3 Feb", "2027-02-03"),
        ("3 Feb 2026", "2026-02-03"),
        ("4/12/26", "2026-12-04"),
    ],
)
def test_a_day_to_come_is_the_next_of_its_name(text: str, day: str) -> None:
    """Read on Wednesday 25 November 2026."""
    assert read_day_ahead(text, "2026-11-25") == Reading(day)


@pytest.mark.parametrize("text", ["3", "soon", "We", "32 Dec"])
def test_what_is_no_day_to_come_is_told(text: str) -> None:
    assert read_day_ahead(text, "2026-11-25").value is None
