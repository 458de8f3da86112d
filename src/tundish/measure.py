"""Text to numbers and numbers to text: the only place where what a user typed is read, and where a value is put into words.

Read as late as it was typed and shown as late as it is drawn; in between there are numbers only. Sums are worked with exact
fractions, so that 0.1 + 0.2 m is 300 mm. Signs and places are those of the British trade: 1,161 and −28 and £1,387.00.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import ROUND_HALF_UP, Context, Decimal
from fractions import Fraction
from typing import Final, Generic, TypeVar

V = TypeVar("V")
BLANK: Final = "–"


@dataclass(frozen=True, slots=True)
class Reading(Generic[V]):
    """What a box says. No value and no problem: it is blank. `note` keeps what was typed when it was a sum or in another unit."""

    value: V | None = None
    problem: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class RangeReading:
    """As `Reading`, for a value that may still be anything from `low` to `high`; `value` is the middle."""

    value: float | None = None
    low: float | None = None
    high: float | None = None
    problem: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class _Kind:
    """Units that turn into one another: what each is worth in the smallest."""

    noun: str
    scales: Mapping[str, Fraction]


def read_number(text: str, unit: str = "") -> Reading[float]:
    """A number in `unit`, from a number or a sum, bare or with that unit or another of its kind behind it.

    A length is read from "1,180", "2.38 m", "210+12+13", "3 x 450", `7' 9 3/4"`.
    """
    found = _read(text, unit)
    return Reading(None if found.value is None else float(found.value), found.problem, found.note)


def read_range(text: str, unit: str = "mm") -> RangeReading:
    """A range from "8 to 12", "8–12" or "8…12 mm" (a hyphen is a minus); a single number is a range of its own."""
    ends = _TO.split(" ".join(text.split())) if len(text) <= _LONGEST else [text]
    if len(ends) == 1 or not any(ends):
        one = read_number(text, unit)
        return RangeReading(one.value, one.value, one.value, one.problem, one.note)
    if len(ends) > 2 or not all(ends):  # noqa: PLR2004 - a range has two ends
        return RangeReading(problem=f"{_quoted(text)} is not a range such as 8 to 12")
    high = _read(ends[1], unit)
    low = _read(_with_unit_of(ends[0], ends[1]), unit)
    if low.value is None or high.value is None:
        return RangeReading(problem=low.problem or high.problem)
    if low.value > high.value:
        return RangeReading(problem=f"{_quoted(text)} runs backwards: write the smaller first")
    note = " ".join(text.split()) if low.note or high.note else ""
    return RangeReading(float((low.value + high.value) / 2), float(low.value), float(high.value), note=note)


def read_several(text: str, unit: str = "mm") -> tuple[float, ...] | str:
    """The readings of one thing taped again and again, from "2380 2376 2383", "2,380, 2,376" or "2380; 2.376 m"; nothing where it is one.

    Words say what is wrong with them; "2 380" may be one number or two, so it is asked for again.
    """
    words = " ".join(text.split())
    parts = [part.strip() for part in _APART.split(words)]
    if len(parts) == 1 and _SPACED.fullmatch(words):
        parts = words.split()
        if _GROUPED.fullmatch(words):
            return f"{_quoted(words)} may be one number or {len(parts)}: write {words.replace(' ', '')}, or {'; '.join(parts)}"
    if len(parts) == 1 or len(words) > _LONGEST:
        return ()
    read = [read_number(part, unit) for part in parts if part]
    problem = next((each.problem for each in read if each.problem), "")
    return problem or tuple(each.value for each in read if each.value is not None)


def read_money(text: str) -> Reading[Decimal]:
    """Pounds from "£1,387.00", "38.5", "85p" or a sum; nothing is rounded."""
    found = _read(text, "£")
    pounds = None if found.value is None else Decimal(found.value.numerator) / Decimal(found.value.denominator)
    return Reading(pounds, found.problem, found.note)


def read_date(text: str, year: int | None = None) -> Reading[str]:
    """A day as ISO text from "2026-12-03", "3 Dec 2026", "Thu 3 Dec" or "3/12/26", day first; `year` serves where none is typed."""
    words = " ".join(text.split())
    if words in {"", BLANK}:
        return Reading()
    found = next((match for form in _DAYS if (match := form.fullmatch(words))), None)
    month = _place_of(found["month"], _MONTHS) if found else None
    if found is None or month is None:
        return Reading(problem=f"{_quoted(words)} is not a day such as 3 Dec 2026 or 3/12/26")
    if found["year"] is None and year is None:
        return Reading(problem=f"{_quoted(words)} says no year")
    of = int(found["year"] or str(year))
    try:
        day = date(of + 2000 if of < 100 else of, month, int(found["day"]))  # noqa: PLR2004 - "26" is 2026
    except ValueError:
        return Reading(problem=f"{_quoted(words)} is not in the calendar")
    weekday = found.groupdict().get("weekday")
    if weekday and _place_of(weekday, _WEEKDAYS) != day.isoweekday():
        return Reading(problem=f"{show_date(day.isoformat())} is what that day would be, not {_quoted(weekday)}")
    return Reading(day.isoformat())


def read_day_ahead(text: str, today: str) -> Reading[str]:
    """A day to come, as ISO text: "Thursday" is the next one after `today` (ISO), and a day without a year the next such day."""
    words, now = " ".join(text.split()), date.fromisoformat(today)
    weekday = None if words.isdecimal() else _place_of(words, _WEEKDAYS)
    if weekday is not None:
        return Reading((now + timedelta((weekday - now.isoweekday()) % 7 or 7)).isoformat())
    read = read_date(words, now.year)
    return read_date(words, now.year + 1) if read.value and read.value < today and not read_date(words).value else read


def show_number(value: float | Decimal | None, places: int | None = 0, *, sign: bool = False) -> str:
    """A number with comma thousands and a true minus, halves rounded away from nothing: 2.5 is 3 and −2.5 is −3.

    With `places` None as many as it has, six at most; with `sign` a plus before what is above nothing. None is "–".
    """
    return _shown(value, 6, trim=True, sign=sign) if places is None else _shown(value, places, sign=sign)


def show_length(value: float | None, *, sign: bool = False) -> str:
    """Millimetres, whole, and a half where there is one: 1,161 and 12.5."""
    half = value is not None and round(value, 6) % 1 == 0.5  # noqa: PLR2004 - a half
    return show_number(value, 1 if half else 0, sign=sign)


def show_metres(length: float | None) -> str:
    """Millimetres shown as metres: 9.06."""
    return show_number(None if length is None else _exact(length) / 1000, 2)


def show_area(area_m2: float | None) -> str:
    """Square metres: 4.15."""
    return show_number(area_m2, 2)


def show_kg(mass_kg: float | None) -> str:
    """Kilograms: 38.5."""
    return show_number(mass_kg, 1)


def show_fall(drop: float | None, run: float | None) -> str:
    """A fall as the trade says it: 25 in 1,050."""
    return BLANK if drop is None or run is None else f"{show_length(drop)} in {show_length(run)}"


def show_money(amount: Decimal | None, *, sign: bool = True) -> str:
    """Pounds and pence, rounded half up: £1,387.00, or 1,387.00 without the sign."""
    shown = show_number(amount, 2)
    return shown if amount is None or not sign else f"−£{shown[1:]}" if shown.startswith("−") else f"£{shown}"


def show_hours(hours: float | None) -> str:
    """Hours to the nearest half: 36.5."""
    return show_number(None if hours is None else _rounded(_exact(hours) * 2, 0) / 2, 1)


def show_percent(percent: float | None) -> str:
    """Per cent with one place where it is needed: 15 % and 17.5 %."""
    return BLANK if percent is None else f"{_shown(percent, 1, trim=True)} %"


def show_date(iso: str, *, with_year: bool = True) -> str:
    """An ISO day as Thu 3 Dec 2026, or Thu 3 Dec; empty is "–"."""
    if not iso:
        return BLANK
    day = date.fromisoformat(iso)
    shown = f"{_WEEKDAYS[day.isoweekday() - 1][:3].title()} {day.day} {_MONTHS[day.month - 1][:3].title()}"
    return f"{shown} {day.year}" if with_year else shown


def show_amount(value: float | None, unit: str, *, with_unit: bool = False) -> str:
    """A number in any unit, with the places that unit is shown in; `with_unit` sets the unit beside it."""
    match unit:
        case "mm":
            shown = show_length(value)
        case "£":
            return show_money(None if value is None else _exact(value), sign=with_unit)
        case "%":
            shown = _shown(value, 1, trim=True)
        case _:
            places = _PLACES.get(unit)
            shown = _shown(value, 2, trim=True) if places is None else show_number(value, places)
    return f"{shown} {unit}" if with_unit and unit and value is not None else shown


def show_range(low: float | None, high: float | None, unit: str = "mm") -> str:
    """From least to most, 8 to 12; one number where both are shown alike."""
    if low is None or high is None:
        return BLANK
    ends = (show_amount(low, unit), show_amount(high, unit))
    return ends[0] if ends[0] == ends[1] else f"{ends[0]} to {ends[1]}"


def places_that_add_up(terms: Iterable[float], total: float) -> int:
    """The fewest places, at most three, at which the shown terms of a column add up to the shown total."""
    column = [_exact(term) for term in terms]
    fits = (places for places in range(3) if sum(_rounded(term, places) for term in column) == _rounded(_exact(total), places))
    return next(fits, 3)


_LONGEST: Final = 200
_LARGEST: Final = 10**12
_DIGITS: Final = 400  # more than any float or price has
_N: Final = r"(?:(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)(?:\.[0-9]*)?|\.[0-9]+)"
_PLAIN: Final = re.compile(rf"[-+]?\s*{_N}")
_PART: Final = re.compile(
    rf"(?:(?P<feet>{_N})\s*(?:'|ft|foot|feet)\s*(?=[0-9.]))?"
    rf"(?:(?:(?P<whole>{_N})\s+)?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)|(?P<only>{_N}))"
    r"\s*(?P<unit>[^\s0-9.,/+*-][^+*-]*)?",
    re.IGNORECASE,
)
_TO: Final = re.compile(r"\s*(?:(?<![a-z])to(?![a-z])|…|\.{2,3}|–)\s*", re.IGNORECASE)
_APART: Final = re.compile(r";|,(?=\s)")
_SPACED: Final = re.compile(rf"{_N}(?: {_N})+")
_GROUPED: Final = re.compile(r"[0-9]{1,2}(?: [0-9]{3})+")
_TIMES: Final = re.compile(r"(?<![a-z])\s*x\s*(?=[0-9.])", re.IGNORECASE)
_POUND_SIGN: Final = re.compile(r"£\s*(?=[0-9.])")
_DOUBTFUL: Final = re.compile(r"[0-9]-\s?[0-9]+\s?/|(?:'|ft)-[0-9]", re.IGNORECASE)
_SIGNS: Final = str.maketrans(
    {"−": "-", "×": "*", "′": "'", "’": "'", "‘": "'", "″": '"', "”": '"', "“": '"', "⁄": "/"}
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
_INCHES: Final = ('"', "in", "ins", "inch", "inches")
_KINDS: Final = (
    _Kind(
        "a length",
        dict.fromkeys(("mm", "millimetre", "millimetres"), Fraction(1))
        | dict.fromkeys(("cm", "centimetre", "centimetres"), Fraction(10))
        | dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000))
        | dict.fromkeys(_INCHES, Fraction("25.4"))
        | dict.fromkeys(("'", "ft", "foot", "feet"), Fraction("304.8")),
    ),
    _Kind("an area", dict.fromkeys(("m²", "sqm", "sq m"), Fraction(1))),
    _Kind("a weight", {"g": Fraction(1), "kg": Fraction(1000)}),
    _Kind("a volume", {"ml": Fraction(1)} | dict.fromkeys(("l", "litre", "litres"), Fraction(1000))),
    _Kind(
        "a time",
        dict.fromkeys(("min", "mins", "minute", "minutes"), Fraction(1)) | dict.fromkeys(("h", "hr", "hrs", "hour", "hours"), Fraction(60)),
    ),
    _Kind("an amount of money", {"p": Fraction(1), "£": Fraction(100)}),
    _Kind("a percentage", dict.fromkeys(("%", "percent", "per cent"), Fraction(1))),
)
_PLACES: Final = {
    "m": 2,
    "m²": 2,
    "m³": 2,
    "kg": 1,
    "kg/m²": 1,
    "kg/m": 1,
    "kN": 2,
    "kN·m": 3,
    "ml": 0,
    "l": 1,
    "l/s": 2,
    "mm/m": 1,
    "bar": 1,
}
_MONTHS: Final = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_WEEKDAYS: Final = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_YEAR: Final = r"(?P<year>(?:19|2[01])?[0-9]{2})"
_DAYS: Final = tuple(
    re.compile(form, re.IGNORECASE)
    for form in (
        r"(?P<year>(?:19|2[01])[0-9]{2})-(?P<month>[0-9]{1,2})-(?P<day>[0-9]{1,2})",
        rf"(?P<day>[0-9]{{1,2}})(?P<mark>[-/.])(?P<month>[0-9]{{1,2}})(?:(?P=mark){_YEAR})?",
        rf"(?:(?P<weekday>[a-z]+),? )?(?P<day>[0-9]{{1,2}})(?:st|nd|rd|th)? ?(?P<month>[a-z]+)(?:,? ?{_YEAR})?",
    )
)


def _read(text: str, unit: str) -> Reading[Fraction]:
    """The exact number in `unit`."""
    if len(text) > _LONGEST:
        return Reading(problem=f"what was typed is {len(text):,} characters long; at most {_LONGEST} can be read")
    typed = " ".join(text.split())
    if typed in {"", BLANK}:
        return Reading()
    words = typed.translate(_SIGNS).replace("''", '"').strip()
    words = _TIMES.sub("*", _POUND_SIGN.sub("", words) if unit == "£" else words)
    kind = next((kind for kind in _KINDS if unit in kind.scales), _Kind("a number", {unit.lower(): Fraction(1)}))
    try:
        value = _worked(words, kind, kind.scales.get(unit, Fraction(1)))
    except ValueError as refusal:
        return Reading(problem=str(refusal))
    if abs(value) > _LARGEST:
        return Reading(problem=f"{_quoted(typed)} is far too large")
    bare = words.lower().removesuffix(unit.lower()).strip()
    return Reading(value, note="" if _PLAIN.fullmatch(bare) else typed)


def _worked(words: str, kind: _Kind, bare: Fraction) -> Fraction:
    """A sum of products in the unit whose scale is `bare`; ValueError names what cannot be read."""
    if kind.noun == "a length" and _DOUBTFUL.search(words):
        raise ValueError(f"{_quoted(words)} may be one length or a sum: leave out the hyphen, or put spaces round it")
    pieces = re.split("([-+])", f"0{words}" if words[0] in "-+" else words)
    terms = zip(("+", *pieces[1::2]), pieces[::2], strict=True)
    return sum((_product(term, kind, bare) * (1 if sign == "+" else -1) for sign, term in terms), Fraction(0)) / bare


def _product(term: str, kind: _Kind, bare: Fraction) -> Fraction:
    factors = [_factor(factor.strip(), kind) for factor in term.split("*")]
    scales = [scale for _, scale in factors if scale is not None] or [bare]
    if len(scales) > 1:
        raise ValueError(f"{_quoted(term)} is {kind.noun} times {kind.noun}: leave the unit off the number of times")
    return math.prod((number for number, _ in factors), start=scales[0])


def _factor(text: str, kind: _Kind) -> tuple[Fraction, Fraction | None]:
    """A number and what its own unit is worth, None where it has no unit."""
    found = _PART.fullmatch(text)
    if found is None:
        hint = ": a comma parts thousands; a decimal has a full stop" if "," in text else ""
        raise ValueError(f"{_quoted(text)} is not {kind.noun}{hint}" if text else "a number is missing beside a sign")
    suffix = (found["unit"] or "").lower().replace("2", "²").replace("3", "³")
    number = _fraction(found["top"], found["bottom"]) + _decimal(found["whole"] or found["only"] or "0")
    if found["feet"]:
        number += _decimal(found["feet"]) * 12
        suffix = "in" if suffix in {"", *_INCHES} else "feet and something else"
    if not suffix and found["top"] and kind.noun == "a length":
        raise ValueError(f'{_quoted(text)} says no unit: write {text}" or {text} mm')
    if suffix and suffix not in kind.scales:
        raise ValueError(f"{_quoted(text)} is not {kind.noun}")
    return number, kind.scales[suffix] if suffix else None


def _decimal(digits: str) -> Fraction:
    return Fraction(digits.replace(",", ""))


def _fraction(top: str | None, bottom: str | None) -> Fraction:
    if top is None or bottom is None:
        return Fraction(0)
    if int(bottom) == 0:
        raise ValueError(f"{top}/{bottom} is not a fraction: nothing divides by 0")
    return Fraction(int(top), int(bottom))


def _with_unit_of(low: str, high: str) -> str:
    """The lower end of a range with the upper's unit, when it is a number without one: 2 to 2.5 m is 2 m to 2.5 m."""
    one, other = (_PART.fullmatch(end.translate(_SIGNS).strip()) for end in (low, high))
    if one is None or other is None or one["unit"] or one["feet"]:
        return low
    return low + ("ft" if other["feet"] else other["unit"] or "")


def _place_of(word: str, names: tuple[str, ...]) -> int | None:
    """The place, from 1, of the name that a number or at least three letters stand for."""
    if word.isdecimal():
        return int(word)
    return next((place for place, name in enumerate(names, 1) if len(word) > 2 and name.startswith(word.lower())), None)  # noqa: PLR2004


def _exact(value: float | Decimal) -> Decimal:
    return value if isinstance(value, Decimal) else Decimal(repr(float(value)))


def _rounded(value: Decimal, places: int) -> Decimal:
    return value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP, Context(prec=_DIGITS))


def _shown(value: float | Decimal | None, places: int, *, trim: bool = False, sign: bool = False) -> str:
    if value is None:
        return BLANK
    rounded = _rounded(_exact(value), places)
    digits = f"{rounded.copy_abs():,f}"
    if trim:
        digits = digits.rstrip("0").rstrip(".")
    return ("−" if rounded < 0 else "+" if sign and rounded > 0 else "") + digits


def _quoted(text: str) -> str:
    """What was typed, cut short."""
    return f'"{text[:40]}…"' if len(text) > 40 else f'"{text}"'  # noqa: PLR2004
