"""Lengths read, shown and written, and places in a text, at the values where something changes: worked out on paper."""

from fractions import Fraction

import pytest

import stitchlang
from stitchlang.ground.lengths import (
    PLACES,
    decimal,
    mass_parts,
    millimetres,
    mixed,
    read_length,
    read_number,
    root,
    show,
    show_number,
    unit_of,
    write,
)
from stitchlang.ground.nearest import distance, nearest
from stitchlang.ground.text import Source, Span, plain
from stitchlang.ground.working import NOTHING, Working, later, total

INCH = Fraction(254, 10)  # millimetres, exact by definition (1959)


# ------------------------------------------------------------------ shown
def test_which_parts_of_an_inch_are_shown_as_they_are():
    """Halves to sixty-fourths as a ruler has them; thirds, fifths, sixths, tenths and twelfths are written so."""
    exact = [parts for parts in range(1, 80) if not show_number(INCH / parts, "in")[1]]

    assert exact == [1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 32, 64]


@pytest.mark.parametrize(
    ("inches", "ruler", "shown"),
    [
        ("1/7", 16, "1/8"),  # 2.29 sixteenths
        ("5/7", 16, "11/16"),  # 11.43
        ("3/14", 16, "3/16"),  # 3.43
        ("13/7", 16, "1 7/8"),  # 29.7
        ("1/128", 16, "0"),  # an eighth of a sixteenth
        ("5/128", 16, "1/16"),  # 0.625
        ("1/9", 8, "1/8"),  # 0.89 eighths
        ("1/7", 64, "9/64"),  # 9.14
        ("9/7", 4, "1 1/4"),  # 5.14 quarters
        ("3/128", 64, "1/32"),  # 1 1/2 sixty-fourths: a half goes up, to 2
        ("-13/7", 16, "-1 7/8"),
    ],
)
def test_other_parts_of_an_inch_come_to_the_nearest_mark(inches, ruler, shown):
    assert show_number(Fraction(inches) * INCH, "in", ruler) == (shown, True)


@pytest.mark.parametrize(
    ("mm", "unit", "shown"),
    [
        ("12.3", "mm", ("12.3", False)),
        ("12.34", "mm", ("12.3", True)),
        ("12.35", "mm", ("12.4", True)),  # a half goes up
        ("0.05", "mm", ("0.1", True)),
        ("0.04", "mm", ("0", True)),
        ("10", "mm", ("10", False)),
        ("123.4", "cm", ("12.34", False)),
        ("123.45", "cm", ("12.35", True)),
        ("100", "cm", ("10", False)),
        ("1/3", "cm", ("0.03", True)),
        ("1234", "m", ("1.234", False)),
        ("1234.5", "m", ("1.235", True)),
        ("304.8", "ft", ("1", False)),
        ("38.1", "ft", ("0.125", False)),
        ("19.05", "ft", ("0.063", True)),  # 0.0625
        ("1371.6", "yd", ("1.5", False)),
        ("-25", "mm", ("-25", False)),
        ("-0.5", "mm", ("-0.5", False)),
        ("-127/320", "in", ("-1/64", False)),  # 0.397 mm
        ("0", "mm", ("0", False)),
        ("0", "in", ("0", False)),
    ],
)
def test_decimals(mm, unit, shown):
    """A tenth of a millimetre, a tenth of one in centimetres too, a millimetre in metres; a half goes up."""
    assert show_number(Fraction(mm), unit) == shown


@pytest.mark.parametrize(
    ("mm", "unit", "shown"),
    [
        ("9.9", "cm", "9.9 mm"),  # below a centimetre, metric sewers speak of millimetres
        ("9.95", "cm", "about 10 mm"),
        ("10", "cm", "1 cm"),
        ("-9.9", "cm", "-9.9 mm"),
        ("-10", "cm", "-1 cm"),
        ("101.23", "cm", "about 10.12 cm"),
        ("9.5", "mm", "9.5 mm"),
        ("25.4", "in", "1 in"),
        ("25.4", "both", "1 in (25 mm)"),
        ("26", "both", "about 1 in (26 mm)"),
        ("12.7", "both", "1/2 in (13 mm)"),
        ("254", "both", "10 in (254 mm)"),
        ("-12.7", "both", "-1/2 in (13 mm)"),
        ("76.2", "both", "3 in (76 mm)"),
        ("76.23", "both", "about 3 in (76 mm)"),
    ],
)
def test_lengths_with_their_unit(mm, unit, shown):
    assert show(Fraction(mm), unit) == shown


def test_the_ruler_is_asked_in_both_units():
    """1/7 in: 1/8 by eighths; 3.63 mm."""
    assert show(INCH / 7, "both", 8) == "about 1/8 in (4 mm)"
    assert show(INCH / 7, "in", 64) == "about 9/64 in"


@pytest.mark.parametrize(
    ("mm", "places", "shown"),
    [
        ("0.25", 2, "0.25 mm"),
        ("0.255", 2, "about 0.26 mm"),
        ("2.5", 1, "2.5 mm"),
        ("2.55", 1, "about 2.6 mm"),
        ("3", 1, "3 mm"),
        ("1/3", 2, "about 0.33 mm"),
        ("0.05", 1, "about 0.1 mm"),
    ],
)
def test_thicknesses_and_stitches(mm, places, shown):
    assert millimetres(Fraction(mm), places) == shown


@pytest.mark.parametrize(
    ("number", "places", "shown"),
    [
        ("1/2", 0, "1"),
        ("3/2", 0, "2"),
        ("49/100", 0, "0"),
        ("120", 0, "120"),
        ("1.005", 2, "1.01"),
        ("1.004", 2, "1"),
        ("10.50", 2, "10.5"),
        ("0.045", 2, "0.05"),
        ("12.034", 3, "12.034"),
        ("99.995", 2, "100"),
    ],
)
def test_decimal(number, places, shown):
    """Half up, and no idle noughts."""
    assert decimal(Fraction(number), places) == shown


@pytest.mark.parametrize(("number", "shown"), [("2", "2"), ("3/8", "3/8"), ("41/4", "10 1/4"), ("0", "0"), ("1", "1")])
def test_mixed(number, shown):
    assert mixed(Fraction(number)) == shown


# ------------------------------------------------------------------ read and written
@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("12", 12),
        ("12 1/2", "25/2"),
        ("12-1/2", "25/2"),
        ("3/8", "3/8"),
        ("½", "1/2"),
        ("12½", "25/2"),
        ("12 ½", "25/2"),
        ("9.5", "19/2"),
        ("1" * 24, "1" * 24),
    ],
)
def test_numbers_read(text, number):
    assert read_number(text) == Fraction(number)


@pytest.mark.parametrize(("text", "wrong"), [("1" * 25, ValueError), ("1/0", ZeroDivisionError)])
def test_numbers_not_read(text, wrong):
    """Twenty-five characters are too many, twenty-four are not."""
    with pytest.raises(wrong):
        read_number(text)


@pytest.mark.parametrize(
    ("text", "unit", "mm"),
    [
        ("2 in", "in", "50.8"),
        ('2"', "in", "50.8"),
        ("2″", "in", "50.8"),
        ("1 foot", "ft", "304.8"),
        ("2 yards", "yd", "1828.8"),
        ("2cm", "cm", 20),
        ("2 m", "m", 2000),
    ],
)
def test_lengths_read(text, unit, mm):
    assert unit_of(text) == unit
    assert read_length(text) == Fraction(mm)


@pytest.mark.parametrize(("text", "parts"), [("350 g/m2", ("350", "g/m2")), ("10.5oz/yd2", ("10.5", "oz/yd2"))])
def test_a_mass_is_a_number_and_a_unit(text, parts):
    number, unit = mass_parts(text)

    assert (number.strip(), unit) == parts


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        (INCH * Fraction(5, 4), "in", "1 1/4"),
        (INCH / 64, "in", "1/64"),
        (INCH / 128, "in", None),
        (Fraction(1, 10), "mm", "0.1"),
        (Fraction(1, 20), "mm", None),
        (Fraction(1, 10), "cm", "0.01"),
        (Fraction(1, 20), "cm", None),
    ],
)
def test_written_or_not(mm, unit, text):
    """What a ruler has not is not pasted into a recipe."""
    assert write(mm, unit) == text


@pytest.mark.parametrize(("square", "gives"), [(0, 0), (1, 1), (4, 2), ("9/16", "3/4"), ("1/4", "1/2"), (144, 12)])
def test_roots_that_are_rational_are_exact(square, gives):
    assert root(Fraction(square)) == Fraction(gives)


@pytest.mark.parametrize("square", ["2", "3/2", "5/9", "1/8"])
def test_other_roots_are_right_to_forty_places(square):
    """Squared they come to no more, and a fortieth place more is too much."""
    square = Fraction(square)
    found = root(square)

    assert found**2 < square < (found + Fraction(2, PLACES)) ** 2


# ------------------------------------------------------------------ texts
def test_lines_and_columns():
    """Both counted from one; the line end belongs to its line; a carriage return is no letter of it."""
    source = Source("ab\r\ncde\n\nf")

    assert [source.place(at) for at in (0, 1, 3, 4, 6, 7, 8, 9)] == [
        (1, 1),
        (1, 2),
        (1, 4),
        (2, 1),
        (2, 3),
        (2, 4),
        (3, 1),
        (4, 1),
    ]
    assert [source.line_at(at) for at in (0, 4, 8, 9)] == ["ab", "cde", "", "f"]
    assert source.cut(Span(4, 6)) == "cd"


def test_spans_are_alike_where_they_begin_and_end_alike():
    assert Span(1, 2) == Span(1, 2)
    assert Span(1, 2) != Span(1, 3)
    assert Span(1, 2) != Span(0, 2)
    assert Span(1, 2) != (1, 2)
    assert len({Span(1, 2), Span(1, 2), Span(2, 1)}) == 2


def test_what_could_move_a_cursor_is_shown_as_a_mark():
    """Line ends stay."""
    assert plain("a\x1b[0m\nb\r") == "a\N{REPLACEMENT CHARACTER}[0m\nb\N{REPLACEMENT CHARACTER}"
    assert plain("a b") == "a b"


# ------------------------------------------------------------------ names
@pytest.mark.parametrize(
    ("word", "name", "near"),
    [
        ("ab", "ab", True),
        ("ab", "ac", False),
        ("abc", "abd", True),
        ("abcde", "abcxy", False),  # two of five; a third of five is one
        ("abcdef", "abcdxy", True),  # two of six
        ("abcdefgh", "abcdexyz", False),  # three of eight
        ("abcdefghi", "abcdefxyz", True),  # three of nine
        ("ABC", "abd", True),
    ],
)
def test_a_third_of_a_word_may_be_wrong(word, name, near):
    assert nearest(word, [name]) == ([name] if near else [])


@pytest.mark.parametrize(
    ("one", "other", "letters"),
    [
        ("", "", 0),
        ("", "ab", 2),
        ("ab", "", 2),
        ("abc", "abc", 0),
        ("abc", "acb", 1),
        ("abcd", "badc", 2),
        ("abcd", "abxd", 1),
        ("kitten", "sitting", 3),
        ("abc", "cab", 2),
        ("aab", "aba", 1),
    ],
)
def test_letters_between(one, other, letters):
    """Added, dropped, changed or swapped: counted by hand."""
    assert distance(one, other, 9) == distance(other, one, 9) == letters


# ------------------------------------------------------------------ sums
def test_a_sum_and_what_it_hangs_on():
    """10 - 2 x 1/2 and half of the 10 again: 14, the 10 one and a half times."""
    ten, half = Working(10, "front is wide", Span(0, 2)), Working(Fraction(1, 2), "seam", Span(5, 8))
    nine = total("stitched", (1, ten), (-1, half), (-1, half))
    whole = total("both", (1, nine), (Fraction(1, 2), ten))

    assert (nine.mm, whole.mm) == (9, 14)
    assert [(factor, leaf.mm) for factor, leaf in whole.leaves()] == [
        (1, 10),
        (-1, Fraction(1, 2)),
        (-1, Fraction(1, 2)),
        (Fraction(1, 2), 10),
    ]
    assert [(factor, leaf.says) for factor, leaf in whole.levers()] == [(Fraction(3, 2), "front is wide"), (-2, "seam")]
    assert [factor for factor, _ in whole.leaves(-2)] == [-2, 2, 2, -1]
    assert total("none", (1, ten), (-1, ten)).levers() == []
    assert list(total("nothing", (1, NOTHING), (1, half)).leaves()) == [(1, half)]


def test_what_is_written_once_counts_once_by_its_place():
    """Two names at one place are two lengths, or one, as is asked."""
    at = Span(3, 5)
    both = total("both", (1, Working(4, "front is wide", at)), (1, Working(4, "back is wide", at)))

    assert [factor for factor, _ in both.levers()] == [1, 1]
    assert [factor for factor, _ in both.levers(by_place=True)] == [2]
    assert [factor for factor, _ in total("x", (1, Working(4, "a")), (1, Working(4, "b"))).levers(by_place=True)] == [
        1,
        1,
    ]


def test_what_is_known_later_takes_its_place():
    held = later("gathered")
    around = total("around", (2, held))
    held.becomes(Working(5, "five", exact=False))

    assert (held.mm, held.exact) == (5, False)
    assert [(factor, leaf.says) for factor, leaf in around.leaves()] == [(2, "five")]


def test_a_sum_is_exact_where_all_its_terms_are():
    exact, rough = Working(1, "one"), Working(3, "pi", exact=False)

    assert total("a", (1, exact), (1, exact)).exact
    assert not total("b", (1, exact), (1, rough)).exact
    assert not total("c", (1, rough), (1, exact)).exact
    assert total("d", (Fraction(1, 3), exact), (Fraction(1, 4), exact), (Fraction(1, 6), exact)).mm == Fraction(3, 4)


# ------------------------------------------------------------------ sums in a recipe
@pytest.mark.parametrize(
    ("written", "inches"),
    [
        ("1 + 2 * 3", 7),
        ("(1 + 2) * 3", 9),
        ("7 - 2 - 1", 4),
        ("12 / 4 / 3", 1),
        ("12 / (4 / 3)", 9),
        ("- 2 + 5", 3),
        ("2 * -3 + 10", 4),
        ("5 - -1", 6),
        ("1 in + 2.54 cm", 2),
        ("2 * 3 in", 6),
        ("(3 in * 4 in) / 2 in", 6),
        ("3 in / 1 in + 1", 4),
        ("1 in + 2", 3),
        ("2 + 1 in", 3),
        ("1/2 * 9", "9/2"),
    ],
)
def test_sums_as_they_are_written(written, inches):
    """Times and over before plus and minus, from the left; a plain number is of the recipe's unit."""
    piece = stitchlang.read(f'units in\ncloth sail: "sailcloth"\npiece flag of sail: {written} x 12\n').things["flag"]

    assert piece.width.mm == Fraction(inches) * INCH


@pytest.mark.parametrize(
    ("written", "rule"),
    [
        ("3 in * 4 in", "wrong-kind"),
        ("3 in * 4 in + 1 in", "wrong-kind"),
        ("1 in + 3 in * 4 in", "wrong-kind"),
        ("3 in * 4 in * 5 in", "wrong-kind"),
        ("3 / 1 in", "wrong-kind"),
        ("3 in * 4 in + 2", "wrong-kind"),
        ("1 / 0", "division-by-zero"),
        ("1 / (2 - 2)", "division-by-zero"),
        ("1/0", "division-by-zero"),
        ("999999999999 * 999999999999" + " * 999999999999" * 11, "number-too-long"),
        ("2 - 2", "length-below-nothing"),
        ("wid", "unknown-name"),
    ],
)
def test_sums_that_come_to_no_length(written, rule):
    """Thirteen numbers of twelve nines come to 519 bits: more than 512 are too long to be meant."""
    text = f'units in\nallowance 1/2\ncloth sail: "sailcloth"\nlet wide = 3\npiece flag of sail: {written} x 12\n'

    assert rule in {finding.rule for finding in stitchlang.check(stitchlang.read(text))}


@pytest.mark.parametrize(("power", "found"), [(511, False), (512, True)])
def test_how_long_a_number_may_grow(power, found):
    """Two to the 511th has 512 bits and is divided away again; one more is too long."""
    text = "units in\nlet big = " + " * ".join(["2"] * power) + "\n"

    assert ("number-too-long" in {one.rule for one in stitchlang.check(stitchlang.read(text))}) is found
