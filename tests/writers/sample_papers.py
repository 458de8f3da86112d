"""Invented papers that the writers are tried on: a quote, a setting-out sheet, a cut list with labels, a heights agreement."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from tundish.documents.block import (
    Block,
    Column,
    Document,
    Facts,
    FillIn,
    Heading,
    Paragraph,
    Points,
    Row,
    RulerCheck,
    SideBySide,
    Sketch,
    Sums,
    Table,
    Value,
)
from tundish.documents.drawing import Box, Dimension, Drawing, Ellipse, Line, Mark, Shape, Words

PRINTED = "Thu 12 Nov 2026 19:42"
INTRODUCTION = (
    "I will build a half-height false wall, 235 mm deep and 1,200 mm high, across the wall with the soil stack. It hides the stack, the "
    "pipes and two steel frames that carry the WC and the basin, and is tiled on its face and its shelf. The WC and basin hang clear of "
    "the floor."
)
AGREED = "Heights you and I agree on the separate heights sheet: top of pan 420 mm, top of basin 850 mm, all above the finished floor."


def paper(*blocks: Block, name: str = "Sample 047", demo: bool = False) -> Document:
    """A paper about nothing, with the blocks given."""
    return Document(
        key="sample",
        title="Sample",
        number="047-1",
        subtitle="12 November 2026, good for 30 days",
        sender="M. Tarrowby",
        trade="Plumbing and bathrooms",
        name=name,
        foot="Sample 047-1 · Ostlethwaite, family bathroom",
        blocks=blocks,
        demo=demo,
    )


def quote() -> Document:
    """A quote of one page."""
    works = (
        ("Strip out and make safe", "Old WC, basin and boxing out; waste taken away; floors and stairs covered", "273.00"),
        ("First fix", "New branch into the stack, basin waste, hot and cold, pressure test", "379.33"),
        ("Frames and pre-wall", "WC frame with cistern, basin frame, steel and timber behind the board", "616.84"),
        ("Boarding and tiling", "Cement board; your choice of 600 × 300 tile on face and shelf; grout, trim", "665.35"),
        ("Sanitaryware and second fix", "Ondel 530 pan and seat, Fethan 500 basin, flush plate, trap; all connected", "576.49"),
        ("Making good and clear away", "Plaster touched in, sealed, swept, shown to you working", "76.00"),
    )
    columns = (
        Column("Work", share=1.1, tone="strong"),
        Column("What is in it", share=1.6, tone="quiet"),
        Column("Price, £", "money", 0.5, "strong"),
    )
    stages = Table(columns, tuple(Row((work, what, Decimal(price))) for work, what, price in works))
    pay = (("With your acceptance, 30 %", "931.00"), ("When the wall is boarded", "1086.70"), ("When it is finished and shown", "1086.71"))
    payments = Table((Column("When you pay", share=2.2), Column("£", "money")), tuple(Row((when, Decimal(much))) for when, much in pay))
    sums = Sums((("Total before VAT", Decimal("2587.01")), ("VAT at 20 %", Decimal("517.40")), ("You pay", Decimal("3104.41"))))
    return replace(
        paper(
            Facts(
                (
                    ("For", ("Mrs J. Ostlethwaite", "14 Quillet Lane", "Harrowmere ZZ9 4QL")),
                    ("From", ("3 Kilnfold Yard, Harrowmere ZZ9 2RT", "07700 900268 · 01632 960417", "VAT reg. GB 000 0000 00")),
                    ("Planned", ("Start Mon 30 Nov 2026", "5 working days")),
                )
            ),
            Heading("Family bathroom: wall-hung WC and basin on a new pre-wall", 1),
            SideBySide(
                (
                    Paragraph(INTRODUCTION),
                    Paragraph(AGREED),
                ),
                (Sketch(_front(), "What you will see, bath end dotted"),),
            ),
            stages,
            SideBySide((payments,), (sums,)),
            SideBySide(
                (
                    Points(
                        "Not in this price",
                        ("Floor tiling and levelling, by your floor layer", "Basin mixer tap, which you supply by 10 December"),
                    ),
                ),
                (
                    Points(
                        "Still to be confirmed",
                        ("The basin: priced as the Fethan 500, £104.00 before mark-up and VAT; another changes one line",),
                    ),
                ),
            ),
            FillIn("Accepted", ("I accept quote 047-1 at £3,104.41 including VAT.",), ("Signed", "Name", "Date")),
        ),
        title="Quote",
        name="Quote 047-1 Ostlethwaite",
    )


def setting_out() -> Document:
    """A setting-out sheet with marks to be confirmed."""
    columns = (
        Column("Mark", share=1.7),
        Column("Left wall", "length", 1.2, "strong"),
        Column("Bare floor", "length", 1, "strong"),
        Column("Finished", "length", 1, "quiet"),
        Column("Datum", "length", 1, "quiet"),
        Column("Where from", share=1.7, tone="quiet"),
        Column("Done", "tick", 0.7),
    )

    def row(mark: str, left: Value, bare: int, datum: int, why: str) -> Row:
        return Row((mark, left, bare, bare - 28, datum, why, None))

    rows = (
        Row((), group="WC 1, Ondel 530", tbc=True, note="heights not signed"),
        row("Top of pan", 1180, 448, -580, "client 420, unsigned"),
        row("Fixing studs, 180 apart", "1,090, 1,270", 353, -675, "420 – 95 + 28"),
        row("Flush inlet", 1180, 388, -640, "outlet + 135"),
        Row(("Outlet", 1180, 253, 225, -775, "studs – 100", None), tbc=True),
        Row((), group="Basin 1, Fethan 500", tbc=True, note="sizes not confirmed, do not drill"),
        row("Top of basin", 550, 878, -150, "client 850, unsigned"),
        row("Hot, cold", "475, 625", 588, -440, "usual sizes"),
        Row((), group="Stack, wall and steel"),
        Row(("Branch invert at stack", 130, 176, 148, -852, "measured 9 Nov", None), note="Measured twice, to the bottom of the bore."),
        row("Top of steel", "3 to 2,377", 1203, 175, "1,228 – 13 – 12"),
    )
    return replace(
        paper(
            Heading("Stand on: bare floor."),
            Paragraph("Bold figures are above bare floor (top of chipboard). Finished floor is 28 higher. All in mm.", "note"),
            Sketch(_wall(), "Running from left wall, plaster face"),
            Table(columns, rows),
            SideBySide(
                (FillIn("Prove the fall before boarding", ("Expect 25 in 1,050. Needs 18.9 at least.",), ("Read, mm", "By")),),
                (
                    FillIn(
                        "Check this sheet on the wall first",
                        (),
                        ("Room width should tape 2,380. Yours", "Boards to finished floor should be 28. Yours"),
                    ),
                ),
            ),
            RulerCheck(),
        ),
        title="Setting-out sheet, wall A",
        number="",
        subtitle="Job 047, Ostlethwaite, family bathroom · 12 Nov 2026 19:42",
        name="Setting-out sheet 047 wall A",
        foot="TBC figures are not for drilling",
    )


def cut_list() -> Document:
    """A cut list with bars drawn, ticks, groups and totals."""
    columns = (
        Column("Piece", share=0.6, tone="strong"),
        Column("What it is", share=1.8),
        Column("Length", "length", 0.7, "strong"),
        Column("No.", "count", 0.4),
        Column("From bar", share=1.2),
        Column("At, from left wall", share=1.6),
        Column("Cut", "tick", 0.9),
    )
    rows = (
        Row((), group="Strut 41 × 21"),
        Row(("T1", "Top rail", 2374, 1, "New 1", "3 to 2,377", 1)),
        Row(("F1", "Floor rail, left", 297, 1, "New 2", "3 to 300", 1)),
        Row(("U1–U4", "Upright", 1161, 4, "Rack, New 2, 2, 3", "20; 1,580; 1,980; 2,360", 4), tbc=True, note="Cut last."),
        Row((), group="Soil, waste, copper"),
        Row(("S1", "Soil 110, branch, pan to stack", 860, 1, "Van rack 1,240", "keep 377", 1)),
        Row(("C2", "Copper 15, cold to cistern", 830, 1, "Van rack 3,000", "scrap 224", 1)),
    )
    return replace(
        paper(
            Heading("Strut 41 × 21"),
            Paragraph("12 pieces, 9,064 mm. Take 1 offcut from the van rack and buy 3 lengths of 3 m. Blade 3 mm.", "note"),
            Sketch(_bars()),
            Table(columns, rows, totals=(3,), total_label="Pieces"),
            Paragraph("Cut the uprights last: their length rests on a build-up that nobody has confirmed.", "caution"),
        ),
        title="Cut list",
        number="047",
        name="Cut list 047",
        foot="Cut list 047 · longest first within each bar · lengths in mm",
    )


def heights() -> Document:
    """A heights agreement with signatures."""
    columns = (
        Column("", share=0.2, tone="strong"),
        Column("What", share=1.4),
        Column("Above your floor", "length", 1, "strong"),
        Column("Can it change?", share=1.5, tone="quiet"),
        Column("Initials", "blank", 0.7),
    )
    rows = (
        Row(("A", "Top of the WC pan, seat down adds about 15", 420, "414 at the lowest: below that the drain will not fall enough", None)),
        Row(("B", "Top of the basin", 850, "800 to 900", None), tbc=True),
        Row(("C", "Middle of the flush plate", 1000, "fixed by the frame", None)),
    )
    return replace(
        paper(
            Paragraph(
                "Before I close the wall, please check these heights. They are measured from your finished floor, the surface you will "
                "stand on. Once the wall is boarded and tiled they cannot be changed without opening it up."
            ),
            Sketch(_front()),
            Table(columns, rows),
            Points(
                "These figures rest on",
                ("Finished floor 28 mm above the floor boards.", "Who uses the room: two adults, one child of nine."),
            ),
            FillIn("Agreed", (), ("Client", "Name", "Date", "Fitter", "Name", "Date")),
        ),
        title="Heights we agree",
        number="",
        name="Heights we agree 047",
    )


def order(rows: int) -> Document:
    """An order list of so many lines, each ten pence, in groups of a hundred."""
    columns = (
        Column("Code", share=0.8),
        Column("Item", share=2.5),
        Column("Need", "count", 0.6),
        Column("Length", "length", 0.8),
        Column("Area", "area", 0.8),
        Column("Hours", "hours", 0.7),
        Column("Price", "money", 0.9),
    )
    made: list[Row] = []
    for number in range(rows):
        if number % 100 == 0:
            made.append(Row((), group=f"Group {number // 100 + 1}"))
        made.append(Row((f"ZZ-{number:04}", f"Bend {number}, 110 mm, 90 degrees", 2, 1161.4, 1.255, 0.5, Decimal("0.10"))))
    table = Table(columns, tuple(made), totals=(2, 6), title="Harrowmere merchant")
    return replace(paper(table, name="Order list 047"), tables_only=True)


def order_of_all_kinds(rows: int) -> Document:
    """An order list as the program prints it, with boxes to tick and no two lines alike, every seventh of them to be confirmed."""
    columns = (
        Column("Code", share=1.4),
        Column("Item", share=4),
        Column("Need", share=0.9),
        Column("Held", share=0.9, tone="quiet"),
        Column("Buy", share=0.9),
        Column("Packs", "count", 0.65, "strong"),
        Column("Pack of", share=1),
        Column("Each, £", "money", 0.8),
        Column("Line, £", "money", 0.9),
        Column("In", "tick", 0.35),
    )
    things = ("Waste bend 40 × 92½°", "Tee reducing 22 by 15, push-fit", "Wall plate elbow 15 with a lug", "Board screws 4.2 × 35")
    made = []
    for number in range(rows):
        price, packs = Decimal(number * 337 % 20_011) / 100, number % 13 + 1
        need = f"{number * 7_919 % 1_009 + 1:,}"
        code, item = f"QZ{number * 7_919 % 100_003:05}", f"{things[number % 4]}, {number % 97}"
        made.append(Row((code, item, need, "–", need, packs, f"{number % 9 + 1}", price, price * packs, ""), tbc=number % 7 == 0))
    table = Table(columns, tuple(made), totals=(8,), total_label="Goods, without VAT")
    return replace(paper(table, name="Order list 048"), tables_only=True)


def papers() -> tuple[Document, ...]:
    """All of them, plain and awkward."""
    return quote(), setting_out(), cut_list(), heights(), order(40), order(0)


def _room() -> list[Mark]:
    return [
        Box(-60, 0, 60, 1300, "wall"),
        Box(2380, 0, 60, 1300, "wall"),
        Box(-60, 1228, 2500, 72, "wall"),
        Box(0, 0, 2380, 28, "floor"),
        Box(-30, -25, 2440, 25, "hatch"),
        *(Line(x, 28, x, 1228, "tile") for x in range(270, 2380, 600)),
        *(Line(0, y, 2380, y, "tile") for y in (328, 628, 928)),
        Line(0, 28, 2380, 28, "board"),
    ]


def _front() -> Drawing:
    pan = Shape(((1000, 440), (1000, 260), (1060, 110), (1140, 95), (1220, 95), (1300, 110), (1360, 260), (1360, 440)), "ware", "pan")
    basin = Shape(((300, 878), (300, 800), (380, 740), (720, 740), (800, 800), (800, 878)), "ware", "basin")
    bath = (Box(1690, 28, 690, 560, "hidden"), Words(2035, 300, "bath, end on", style="hidden"))
    marks = (*_room(), pan, basin, *bath, Ellipse(1180, 1028, 110, 70, "ware"), Dimension(1500, 28, 1500, 448, "A"))
    return Drawing("Front", marks, (-60, -30, 2500, 1330))


def _wall() -> Drawing:
    steel = [Box(x, 28, 41, 1140, "steel") for x in (0, 300, 759, 930, 1389, 1560, 1960, 2339)]
    pipes: list[Mark] = [
        Box(80, 28, 110, 1200, "soil"),
        Shape(((180, 176), (1180, 201), (1180, 311), (180, 286)), "soil"),
        Line(475, 28, 475, 588, "hot"),
        Line(625, 28, 625, 588, "cold"),
        Words(445, 470, "H", style="hot", bold=True),
        Words(655, 470, "C", style="cold", bold=True),
        Line(-60, 1028, 2440, 1028, "datum"),
        Words(1900, 1055, "datum, 1,028 above bare floor", bold=True),
        Box(1000, 440, 360, 60, "tbc"),
        Ellipse(1180, 253, 45, 45, "hidden", filled=False),
    ]
    running: list[Mark] = [
        Words(x, -90, f"{x:,}", turned=True, anchor="end") for x in (0, 300, 550, 800, 930, 1180, 1430, 1580, 1980, 2380)
    ]
    heights: list[Mark] = [Words(2500, y, f"{y:,}", bold=True, anchor="start") for y in (253, 353, 448, 588, 1028, 1148, 1228)]
    sizes: list[Mark] = [
        Dimension(-120, 0, -120, 1228, "1,228"),
        Dimension(0, 1360, 2380, 1360, "2,380"),
        Dimension(300, 1340, 550, 1340, "250", tbc=True),
        Dimension(1389, 640, 1430, 640, "41"),
    ]
    frame = [Line(0, -60, 2380, -60, "dimension"), *(Line(x, -75, x, -45, "dimension") for x in (0, 300, 550, 1180, 2380))]
    return Drawing("Wall A", (*_room(), *steel, *pipes, *running, *heights, *sizes, *frame), (-150, -120, 2650, 1500))


def _bars() -> Drawing:
    marks: list[Mark] = []
    for number, (name, pieces) in enumerate((("Van rack", (1161, 130)), ("New 1", (2374, 168, 168)), ("New 2", (1161, 1161, 297)))):
        low, left = -190.0 * number, 0.0
        marks.append(Words(-60, low + 60, name, anchor="end", bold=True))
        for length in pieces:
            marks += [Box(left, low, length, 120, "ink"), Words(left + length / 2, low + 60, f"{length:,}", bold=True)]
            left += length + 3
        style = "hatch" if number else "keep"
        marks.append(Box(left, low, (3000 if number else 1400) - left, 120, "hatch" if style == "hatch" else "keep"))
    return Drawing("Strut 41 × 21, bars", tuple(marks), (-400, -400, 3420, 540))
