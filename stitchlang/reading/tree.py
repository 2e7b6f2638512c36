"""What the reader makes of a statement: nodes and the words under them."""

from __future__ import annotations


class Token:
    """A word, number, string or mark, as written, and where."""

    rule: None = None  # no phrase: a token can be asked for its rule as a node can
    __slots__ = ("kind", "text", "start", "end")

    def __init__(self, kind: str, text: str, start: int, end: int) -> None:
        self.kind = kind
        self.text = text
        self.start = start
        self.end = end

    def __repr__(self) -> str:
        return f"Token({self.kind}, {self.text!r})"


class Node:
    """A phrase of the grammar: the rule it matched and its parts, in order.

    `rule` is the rule's name in the grammar file.  A span covers every word of
    the phrase, those that the tree leaves out (`to`, `at`, commas) included.
    """

    __slots__ = ("rule", "parts", "start", "end")

    def __init__(self, rule: str, parts: list[Node | Token], start: int, end: int) -> None:
        self.rule = rule
        self.parts = parts
        self.start = start
        self.end = end

    def __repr__(self) -> str:
        return f"Node({self.rule}, {self.parts!r})"

    def first(self, rule: str) -> Node | None:
        """The first part made by that rule, or None."""
        for part in self.parts:
            if isinstance(part, Node) and part.rule == rule:
                return part
        return None

    def every(self, rule: str) -> list[Node]:
        """All parts made by that rule, in order."""
        return [part for part in self.parts if isinstance(part, Node) and part.rule == rule]

    def word(self, at: int = 0) -> Token:
        """The part at a place where the grammar has a word."""
        part = self.parts[at]
        assert isinstance(part, Token), self
        return part

    def phrase(self, at: int = 0) -> Node:
        """The part at a place where the grammar has a phrase."""
        part = self.parts[at]
        assert isinstance(part, Node), self
        return part

    def words(self) -> list[Token]:
        """The parts that are words rather than phrases."""
        return [part for part in self.parts if isinstance(part, Token)]

    def phrases(self) -> list[Node]:
        """The parts that are phrases rather than words."""
        return [part for part in self.parts if isinstance(part, Node)]

    def listed(self, clause: Node | None = None) -> list[Node]:
        """The `edge` items of a phrase: its own, and those that follow it after commas.

        Items before the first clause belong to the verb (`clause` None);
        items behind a clause belong to that clause.
        """
        items, inside = [], clause is None
        for part in self.parts:
            if isinstance(part, Token):
                continue
            if part.rule == "edge":
                if inside:
                    items.append(part)
            else:
                inside = part is clause
                if inside:
                    items.extend(part.every("edge"))
        return items
