"""What Where from shows for anything that can be asked about, by its id.

Ids: `figure:KEY` of the chosen room, `input:PATH`, `line:ITEM`, `piece:ITEM:MARK`, `check:N`, `stage:STAGE`, `decision:KEY`,
`rule:KEY`, `price`. A term of a figure is asked for by its place behind a slash: `figure:wc-1.studs/0/1`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Final

from tundish import measure
from tundish.desktop import open_list, standing, typing_over, ways
from tundish.desktop.job_line import FINISH
from tundish.desktop.price_reasons import price_view, stage_sections, visit_view
from tundish.desktop.receipt import Action, ReceiptLine, Section, WhereFromView
from tundish.desktop.workspace import Workspace
from tundish.documents.materials import buy_words
from tundish.estimate import Estimate, Job
from tundish.field import NoSuchInputError, describe, get, read
from tundish.figure import Figure, Known
from tundish.open_inputs import OpenInput, open_inputs
from tundish.rules.rule import Finding

MOST_MOVED: Final = 7
OF_HEIGHT: Final = (
    "top",
    "studs",
    "outlet",
    "inlet",
    "waste",
    "supply",
    "plate",
    "shelf_plate",
    "frame_top",
    "bracket",
    "boss",
    "datum",
    "finished_floor",
    "invert",
)
STATE_TAGS: Final = {
    "passes": ("Passes", "settled"),
    "look": ("To look at", "tbc"),
    "fails": ("Fails", "fails"),
    "cannot tell": ("Cannot tell", "tbc"),
}
DECISION_TAGS: Final = {
    "open": ("Open", "tbc"),
    "asked": ("Asked", "tbc"),
    "settled": ("Settled", "settled"),
    "not needed": ("Not needed", "settled"),
}


def reason_of(asked: str, workspace: Workspace, came_from: str = "") -> WhereFromView | None:
    """The view of what an id names, or None where there is no such thing (any more)."""
    estimate = workspace.estimate
    if estimate is None:
        return None
    kind, _, name = asked.partition(":")
    views: dict[str, Callable[[], WhereFromView | None]] = {
        "line": lambda: _line(name, estimate, workspace),
        "check": lambda: _check(name, estimate),
        "decision": lambda: _decision(name, workspace, estimate),
        "rule": lambda: _rule(name, estimate),
        "price": lambda: price_view(estimate),
        "visit": lambda: visit_view(name, estimate),
    }
    if kind in views:
        return views[kind]()
    name, *steps = name.split("/")
    figure = _figure(kind, name, workspace, estimate)
    for step in steps:
        if figure is None or not step.isdecimal() or int(step) >= len(figure.terms):
            return None
        figure = figure.terms[int(step)].figure
    view = figure_view(figure, asked, workspace, came_from) if figure else None
    stage = next((each for each in estimate.price.stages if asked == f"stage:{each.stage}"), None)
    return replace(view, sections=(*stage_sections(stage), *view.sections)) if view and stage else view


def figure_view(figure: Figure, asked: str, workspace: Workspace, came_from: str = "") -> WhereFromView:
    """A figure with the column that adds up to it and what it moves."""
    lines = tuple(_lines(figure, asked))
    if len(lines) > 1:
        lines = (*lines, ReceiptLine("worked out", figure.label or "Together", _amount(figure), is_subtotal=True, tbc=figure.tbc))
    reach = "" if figure.low == figure.high else f"may be {measure.show_range(figure.low, figure.high, figure.unit)}"
    own = typing_over.own_id(asked, figure, workspace)
    open_, different = _open_input(figure, workspace), _different(figure)
    return WhereFromView(
        title=figure.label or "A step on the way",
        value="" if _chosen(figure) and not reach else _amount(figure),
        unit=figure.unit,
        floor=_floor(figure, asked, workspace),
        under_title=reach,
        tag="TBC" if figure.tbc else "",
        came_from=came_from,
        lines=lines or (_own_line(figure),),
        note=_help(figure),
        sections=tuple(each for each in (_moves(figure, workspace), open_list.section(open_)) if each.lines),
        warning=_warning(figure, open_, workspace),
        actions=_actions(figure, own, workspace),
        own=typing_over.box(own, figure, workspace),
        different=ways.of_figure(asked, workspace.room) or different.path,
        different_title="If it were different" if figure.path else f"If {different.label} were different",
    )


def _open_input(figure: Figure, workspace: Workspace) -> OpenInput | None:
    """What an input that is still open decides, where the figure is one."""
    worked = workspace.estimate if figure.path and not figure.settled else None
    return next((each for each in open_inputs(worked) if each.path == figure.path), None) if worked else None


def _warning(figure: Figure, open_: OpenInput | None, workspace: Workspace) -> str:
    """Why an input could not be used as it was typed; or that it is still to be confirmed."""
    estimate = workspace.estimate
    problems = estimate.problems if estimate else ()
    told = next((each.text for each in problems if figure.path and each.path == figure.path), "")
    if told:
        return told[0].upper() + told[1:] + ("" if told.endswith(".") else ".")
    if figure.known is Known.TYPED and typing_over.ROWS in figure.path:
        return _broken(figure, estimate) if estimate else ""
    by = open_.settle_by if open_ else None
    return f"Still to be confirmed: settle it before {by or 'first fix'}." if figure.tbc else ""


def _broken(figure: Figure, estimate: Estimate) -> str:
    """That a typed figure stands although a check that rests on it does not pass."""
    told = [
        f"{each.title}, {each.place}" if each.place else each.title
        for each in estimate.findings
        if each.state in {"fails", "look"} and each.has is not None and (each.has == figure or _rests_on(each.has, figure))
    ]
    return f"It stands as you typed it, but a check that rests on it does not pass: {'; '.join(told[:2])}." if told else ""


def _different(figure: Figure) -> Figure:
    """The input that "If it were different" speaks of: the figure itself, else the first that it rests on and is open."""
    return figure if figure.path else next(_open_inputs(figure), figure)


def _figure(kind: str, name: str, workspace: Workspace, estimate: Estimate) -> Figure | None:
    if kind == "figure":
        return workspace.room.figures.get(name) if workspace.room else None
    if kind == "input":
        return _input(name, workspace)
    if kind == "piece":
        code, _, mark = name.rpartition(":")
        cuts = (cut for plan in estimate.cuts if plan.item.code == code for cut in plan.cuts)
        return next((cut.length.named(f"{cut.what} {cut.mark}") for cut in cuts if cut.mark == mark), None)
    if kind == "stage":
        return next((each.hours for each in estimate.price.stages if each.stage == name), None)
    told = workspace.told.get(kind)
    return told(name) if told else None


def _input(path: str, workspace: Workspace) -> Figure | None:
    try:
        declared = describe(Job, path)
        if declared.kind != "number":
            told = workspace.estimate.otherwise if workspace.estimate else ()
            return next((each.choice for each in told if each.choice.path == path), None)
        parent, _, name = path.rpartition(".")
        return read(get(workspace.job, parent), name, parent)
    except NoSuchInputError:
        return None


def _lines(figure: Figure, asked: str) -> Iterator[ReceiptLine]:
    signed = [-term.figure.value if term.sign == "−" else term.figure.value for term in figure.terms]
    adds_up = all(term.sign in {"+", "−"} for term in figure.terms)
    places = measure.places_that_add_up(signed, figure.value) if adds_up else None
    for place, term in enumerate(figure.terms):
        of = term.figure
        sign = "" if place == 0 and term.sign == "+" else f"{term.sign} "
        shown = measure.show_number(of.value, places) if of.unit == "mm" else measure.show_amount(of.value, of.unit)
        note = ", ".join(
            word for word in (of.note, measure.show_date(of.when, with_year=False) if len(of.when) == len("2026-01-01") else "") if word
        )
        link = f"{asked}/{place}" if of.terms or of.path else ""
        yield ReceiptLine(str(of.known), of.label or _step_words(of), f"{sign}{shown}", note, tbc=of.tbc, link=link)


def _own_line(figure: Figure) -> ReceiptLine:
    words = {
        Known.MEASURED: "Tape, by you",
        Known.MAKER: "Maker's sheet",
        Known.AGREED: "Agreed with the client",
        Known.RULE: "Rule",
        Known.RATE: "Your own rate",
        Known.TYPED: "Typed by you",
        Known.WORKED_OUT: "Worked out",
        Known.ASSUMED: "Usual size, assumed",
    }
    when = measure.show_date(figure.when, with_year=False) if len(figure.when) == len("2026-01-01") else ""
    known = "This or that, still open" if _chosen(figure) else words[figure.known]
    return ReceiptLine(str(figure.known), known, when, figure.note, tbc=figure.tbc)


def _chosen(figure: Figure) -> bool:
    """Whether the figure is what a choice that is still open comes to."""
    return bool(figure.path) and describe(Job, figure.path).kind != "number"


def _moves(figure: Figure, workspace: Workspace) -> Section:
    room = workspace.room
    moved: dict[tuple[str, str], ReceiptLine] = {}
    for key, other in room.figures.items() if room else ():
        if other != figure and other.label and _rests_on(other, figure):
            line = ReceiptLine("", other.label, _amount(other), tbc=other.tbc, link=f"figure:{key}")
            moved.setdefault((line.label, line.amount), line)
    return Section("What it moves", tuple(moved.values())[:MOST_MOVED])


def _rests_on(figure: Figure, on: Figure) -> bool:
    return any(term.figure == on or _rests_on(term.figure, on) for term in figure.terms)


def _actions(figure: Figure, own: str, workspace: Workspace) -> tuple[Action, ...]:
    if own and figure.path:
        return typing_over.actions(own, workspace)
    if figure.path:
        settle = (
            Action(_settling(figure.path, workspace, "settle"), "Settle it", "s_agreed")
            if figure.tbc
            else Action(f"open:{figure.path}", "To be confirmed", "half")
        )
        change = Action(f"change:{figure.path}", "Change it", "pencil", main=True)
        return (change,) if _chosen(figure) else (change, settle)
    open_ = next(_open_inputs(figure), None)
    type_own = typing_over.actions(own, workspace) if own else ()
    return (*((Action(_settling(open_.path, workspace, "change"), "Settle it", "s_agreed", main=True),) if open_ else ()), *type_own)


def _settling(path: str, workspace: Workspace, otherwise: str) -> str:
    """The act that settles an input: its decision on Before closing where there is one, else what can be done without."""
    estimate = workspace.estimate
    decision = next((each for each in estimate.decisions if path in each.paths), None) if estimate else None
    return f"decide:{decision.key}" if decision else f"{otherwise}:{path}"


def _open_inputs(figure: Figure) -> Iterator[Figure]:
    if figure.tbc and figure.path:
        yield figure
    for term in figure.terms:
        yield from _open_inputs(term.figure)


def _line(code: str, estimate: Estimate, workspace: Workspace) -> WhereFromView | None:
    purchase = next((each for each in estimate.buying.purchases if each.line.item.code == code), None)
    if purchase is None:
        return None
    line, unit = purchase.line, purchase.line.amount.unit
    rows = [
        ReceiptLine("rule", need.why, measure.show_amount(need.amount.value, unit), need.place, tbc=need.amount.tbc) for need in line.needs
    ]
    rows.append(ReceiptLine("worked out", "Needed", measure.show_amount(line.amount.value, unit), is_subtotal=True, tbc=line.amount.tbc))
    for words, figure in (("From kits", purchase.from_kits), ("From the rack", purchase.from_rack), ("From stock", purchase.from_stock)):
        if figure.value:
            rows.append(ReceiptLine("measured", words, measure.show_number(-figure.value, 0 if unit == "mm" else None)))
    rows.append(ReceiptLine("own rate", "Buy", buy_words(purchase), measure.show_money(purchase.cost) if purchase.priced else ""))
    rules = tuple(dict.fromkeys(need.rule for need in line.needs if need.rule))
    section = Section("The rules behind it", tuple(ReceiptLine("rule", rule) for rule in rules))
    value = measure.show_amount(line.amount.value, unit)
    tag = "TBC" if line.amount.tbc else ""
    hangs = next((one.path for room in estimate.rooms for one in room.framed if one.frame.code == code), "")
    return WhereFromView(
        line.item.name, value, unit, lines=tuple(rows), sections=(section,), tag=tag, actions=_of_item(code, workspace),
        different=f"{hangs}.frame" if hangs else "",
    )  # fmt: skip


def _of_item(code: str, workspace: Workspace) -> tuple[Action, ...]:
    """The item in the catalogue, and the pictures and makers' sheets that are kept with it."""
    from tundish.store.item_files import attached

    files = tuple(Action(f"sheet:{code}:{each.key}", each.name, "paper") for each in attached(workspace.store, code))
    return (Action(f"catalogue:{code}", "Open in the catalogue", "pencil"), *files)


def _check(place: str, estimate: Estimate) -> WhereFromView | None:
    if not place.isdecimal() or int(place) >= len(estimate.findings):
        return None
    finding = estimate.findings[int(place)]
    words, tone = STATE_TAGS[finding.state]
    if finding.state == "passes" and finding.tbc:
        words, tone = "Passes, TBC", "tbc"
    has = finding.has
    lines = tuple(_lines(has, f"check:{place}")) if has else ()
    lines = tuple(ReceiptLine(each.source, each.label, each.amount, each.note, tbc=each.tbc) for each in lines)
    ways_out = tuple(Action(f"way:{place}:{n}", way.words, "pencil") for n, way in enumerate(finding.ways_out))
    needs = tuple(_limit(name, figure) for name, figure in (("At least", finding.least), ("At most", finding.most)) if figure)
    set_by = ReceiptLine("rule", finding.set_by, "", finding.source)
    return WhereFromView(
        title=finding.title,
        value=_amount(has) if has else "–",
        unit=has.unit if has else "",
        under_title=finding.place,
        tag=words,
        tag_tone=tone,
        lines=(*lines, *((ReceiptLine("worked out", "Has", _amount(has), is_subtotal=bool(lines), tbc=has.tbc),) if has else ())),
        sections=(Section("It needs", (*needs, set_by)), *_room_to_move(finding)),
        note=finding.message,
        note_glyph="drop",
        warning="Worked out, not proven. Prove it on site before boarding." if finding.group == "Falls" else "",
        actions=ways_out,
        different=f"check:{place}" if ways_out else ways.of_check(finding, estimate),
        different_title="If it is pressed" if len(ways_out) == 1 else "If one of them is pressed",
    )


def _decision(key: str, workspace: Workspace, estimate: Estimate) -> WhereFromView | None:
    decision = next((each for each in estimate.decisions if each.key == key), None)
    if decision is None:
        return None
    inputs = [(path, _input(path, workspace)) for path in decision.paths]
    rows = [
        ReceiptLine(str(figure.known), figure.label, measure.show_amount(figure.value, figure.unit), tbc=figure.tbc, link=f"input:{path}")
        for path, figure in inputs
        if figure is not None
    ]
    state, tone = DECISION_TAGS[standing.state_of(decision, workspace.job)]
    rests = Section("Settled for", (ReceiptLine("", decision.rests_on),)) if decision.rests_on else None
    open_ = sum(row.tbc for row in rows)
    return WhereFromView(
        decision.title,
        decision.by.removeprefix("By "),
        under_title="to be settled by",
        tag=state,
        tag_tone=tone,
        lines=tuple(rows),
        note=decision.why,
        sections=(rests,) if rests else (),
        warning=f"{open_} of its figures still to be confirmed: settling it confirms them." if open_ else "",
    )


def _rule(key: str, estimate: Estimate) -> WhereFromView | None:
    from tundish.rules.book import RULES

    rule = next((each for each in RULES if each.key == key), None)
    if rule is None:
        return None
    figures = [estimate.book.figure(name) for name in rule.figures]
    rows = tuple(ReceiptLine(str(each.known), each.label, measure.show_amount(each.value, each.unit, with_unit=True)) for each in figures)
    sections = (Section("It reckons with", rows),) if rows else ()
    return WhereFromView(
        rule.sentence, rule.family.capitalize(), lines=(ReceiptLine("rule", "Set by", "", rule.source),), note=rule.more, sections=sections
    )


def _limit(name: str, figure: Figure) -> ReceiptLine:
    return ReceiptLine(str(figure.known), name, measure.show_amount(figure.value, figure.unit), figure.note or figure.label, tbc=figure.tbc)


def _room_to_move(finding: Finding) -> tuple[Section, ...]:
    if finding.spare is None or finding.has is None:
        return ()
    words = "Room to spare" if finding.spare >= 0 else "Short by"
    tone = "settled" if finding.spare >= 0 else "fails"
    return (Section("Room to move", (ReceiptLine("", words, measure.show_amount(abs(finding.spare), finding.has.unit), tone=tone),)),)


def _amount(figure: Figure) -> str:
    return measure.show_length(figure.value) if figure.unit == "mm" else measure.show_amount(figure.value, figure.unit)


def _floor(figure: Figure, asked: str, workspace: Workspace) -> str:
    name = asked.split("/", maxsplit=1)[0].rpartition(".")[2].rpartition(":")[2]
    if figure.unit != "mm" or "/" in asked or not asked.startswith("figure:") or not any(word in name for word in OF_HEIGHT):
        return ""
    room = workspace.room
    if room is None or workspace.floor != FINISH:
        return "above bare floor"
    return f"above bare floor; {measure.show_length(figure.value - room.finished_floor.value)} above finished"


def _step_words(figure: Figure) -> str:
    if figure.terms:
        return " ".join(f"{'' if n == 0 else term.sign + ' '}{_amount(term.figure)}" for n, term in enumerate(figure.terms))
    return "as it is"


def _help(figure: Figure) -> str:
    if not figure.path:
        return ""
    return describe(Job, figure.path).help
