"""The rules that CEN publishes for invoices after EN 16931 in UBL, all of them, asked of a document.

Schematron, ISO/IEC 19757-3: of each pattern the first rule whose context holds a node is the one that applies to it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Final

from elementpath import XPathContext, XPathToken, get_node_tree
from elementpath.collations import UNICODE_CODEPOINT_COLLATION
from elementpath.xpath2 import XPath2Parser
from lxml import etree

RULES: Final = Path(__file__).parent / "en16931" / "CEN-EN16931-UBL.sch"
_SCH: Final = "{http://purl.oclc.org/dsdl/schematron}"


@dataclass(frozen=True, slots=True)
class Check:
    """One test with its name and its words."""

    name: str
    holds: XPathToken
    words: str


def broken(invoice: bytes) -> list[str]:
    """The names and words of every rule that the invoice breaks, warnings too."""
    tree = get_node_tree(etree.fromstring(invoice).getroottree())
    return [
        each.words for pattern in _patterns() for node, checks in _applied(pattern, tree) for each in checks if not _holds(each, tree, node)
    ]


def count() -> int:
    """How many tests there are."""
    return sum(len(checks) for pattern in _patterns() for _, checks in pattern)


def _applied(pattern: Sequence[tuple[XPathToken, Sequence[Check]]], tree: Any) -> Iterator[tuple[Any, Sequence[Check]]]:
    taken = set()
    for context, checks in pattern:
        for node in context.select(XPathContext(tree)):
            if node not in taken:
                taken.add(node)
                yield node, checks


def _holds(check: Check, tree: Any, node: Any) -> bool:
    return bool(check.holds.evaluate(XPathContext(tree, item=node)))


@cache
def _patterns() -> Sequence[Sequence[tuple[XPathToken, Sequence[Check]]]]:
    root = etree.parse(RULES).getroot()
    spaces = {str(each.get("prefix")): str(each.get("uri")) for each in root.iter(f"{_SCH}ns")}
    parser = XPath2Parser(spaces, default_collation=UNICODE_CODEPOINT_COLLATION)  # else it asks for a locale, which Qt has set

    def checks(rule: Any) -> Sequence[Check]:
        found = rule.iter(f"{_SCH}assert")
        return [
            Check(each.get("id"), parser.parse(f"boolean({each.get('test')})"), " ".join("".join(each.itertext()).split()))
            for each in found
        ]

    def context(rule: Any) -> XPathToken:
        parts = (each.strip() for each in rule.get("context").split("|"))
        return parser.parse(" | ".join(each if each.startswith("/") else f"//{each}" for each in parts))

    return [[(context(rule), checks(rule)) for rule in pattern.iter(f"{_SCH}rule")] for pattern in root.iter(f"{_SCH}pattern")]
