"""Cut lists such as a trade job makes them, invented, the same for the same seed."""

from __future__ import annotations

import random

from tundish.cutting.plan import Bar, Piece, Sheet

BARS = (
    (2.0, (("strut 3 m", 3000, 1140),)),
    (3.0, (("timber 2.4 m", 2400, 410), ("timber 3.0 m", 3000, 520), ("timber 3.6 m", 3600, 655), ("timber 4.8 m", 4800, 905))),
    (1.0, (("pipe 2 m", 2000, 790), ("pipe 3 m", 3000, 1080))),
    (2.0, (("studding 1 m", 1000, 160), ("studding 2 m", 2000, 290), ("studding 3 m", 3000, 420))),
)


def dice_of(seed: int) -> random.Random:
    """Throws that are the same for the same seed."""
    return random.Random(seed)  # noqa: S311 - nothing secret is made of them


def bar_job(seed: int, pieces: int) -> tuple[list[Piece], list[Bar], float]:
    """Pieces, stock with a few offcuts, and kerf."""
    dice = dice_of(seed)
    kerf, sizes = BARS[seed % len(BARS)]
    longest = min(length for _, length, _ in sizes)
    stock = [Bar(length, cost, None, name) for name, length, cost in sizes]
    stock += [Bar(dice.randint(300, longest), 0, 1, "offcut", offcut=True) for _ in range(dice.randint(0, 4))]
    lengths = [dice.randrange(longest // 15, longest * 3 // 4, 5) for _ in range(dice.randint(3, 10))]
    return [Piece(f"S{mark}", dice.choice(lengths)) for mark in range(pieces)], stock, kerf


def sheet_job(seed: int, pieces: int) -> tuple[list[Piece], list[Sheet], float, float]:
    """Pieces, stock with a few offcuts, kerf and trim."""
    dice = dice_of(seed)
    stock = [Sheet(2400, 1200, 1620, None, "board"), Sheet(1800, 900, 980, None, "board"), Sheet(1200, 600, 520, None, "board")]
    stock = stock[: dice.choice((1, 3))]
    stock += [Sheet(dice.randint(300, 1900), dice.randint(200, 1150), 0, 1, "offcut", offcut=True) for _ in range(dice.randint(0, 4))]
    turn = dice.random() < 0.7
    sizes = [(dice.randrange(150, 1750, 5), dice.randrange(80, 880, 5)) for _ in range(pieces // 2)]
    cut = [dice.choice(sizes) for _ in range(pieces)]
    kerf, trim = dice.choice(((0.0, 0.0), (3.0, 5.0)))
    return [Piece(f"B{mark}", length, width=width, turn=turn) for mark, (length, width) in enumerate(cut)], stock, kerf, trim
