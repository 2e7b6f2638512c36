"""The sheet of instructions as one HTML page that needs nothing else: style, script and pictures stand in it.

Every length is there in both units; the script hides one of them.  A content policy with the digests of our own style
and script keeps any other from running, whatever a recipe says.
"""

from __future__ import annotations

from base64 import b64encode
from hashlib import sha256
from html import escape
from importlib.resources import files

from ..ground.text import plain
from ..speech import spellings, spelt
from .sheet_blocks import Facts, Para, Picture, Steps, Table, section_words
from .sheet_pictures import speeches
from .sheet_words import cover, sections, warning
from .steps import title

TYPE_CHECKING = False  # types are read by checkers, never at run time
if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from typing import Any

    from ..work.sheet import Sheet
    from .sheet_blocks import Line, Section

UNIT_NAMES = {"in": "inches", "cm": "centimetres", "mm": "millimetres"}
PAGE = """\
<!doctype html>
<html lang="en" data-sheet="{digest}" data-first="{first}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{title}</title>
<style>{style}</style>
</head>
<body>
<a class="skip" href="#steps">Skip to the steps</a>
<header>
<h1>{name}</h1>
{cover}
<nav aria-label="Contents">
<ul>
{contents}
</ul>
</nav>
</header>
{bar}
<main>
{main}
</main>
<script>{script}</script>
</body>
</html>"""
BAR = """\
<div class="bar" id="bar" role="region" aria-label="Units and progress" hidden>
<fieldset>
<legend>Lengths in</legend>
{choices}
</fieldset>
<p id="done"></p>
<button type="button" id="clear">Clear ticks</button>
</div>"""


def sheet_html(sheet: Sheet, unit: str) -> str:
    """The page; `unit` is what it shows first, where there is a script: one of the sheet's two, or `both`."""
    found = sections(sheet)
    style, script = (
        f"\n{files(__package__).joinpath('page', name).read_text('utf-8')}" for name in ("sheet.css", "sheet.js")
    )
    units = [one.unit for one in speeches(sheet)]
    return PAGE.format(
        digest=sha256("\n".join(words for one in found for words in section_words(one)).encode()).hexdigest()[:16],
        first=units.index(unit) if unit in units else "both" if unit == "both" else 1,
        policy=policy(style, script),
        title=bare(title(sheet)),
        style=style,
        name=said(sheet.name),
        cover="\n".join(head(sheet)),
        contents="\n".join(f'<li><a href="#{one.key}">{said(one.title)}</a></li>' for one in found),
        bar=bar(units),
        main="\n".join(map(section, found)),
        script=script,
    )


def policy(style: str, script: str) -> str:
    """What the page may load and run: itself."""
    one, other = (b64encode(sha256(text.encode()).digest()).decode() for text in (style, script))
    return (
        f"default-src 'none'; img-src data:; style-src 'sha256-{one}'; script-src 'sha256-{other}'; "
        "base-uri 'none'; form-action 'none'"
    )


def clean(text: str) -> str:
    """Words on one line, none of them markup, nothing in them that moves a cursor."""
    return escape(plain(" ".join(text.split(" "))).replace("\n", " "))


def bare(text: str, spelling: int = 0) -> str:
    """Words for an attribute or a title: one spelling, no markup."""
    return clean(spelt(text, spelling))


def said(text: str) -> str:
    """Words for the page, in both spellings where they differ."""
    return "".join(
        clean(part[0]) if len(part) == 1 else
        f'<span class="u0">{clean(part[0])}</span><span class="between"> (</span>'
        f'<span class="u1">{clean(part[1])}</span><span class="between">)</span>'
        for part in spellings(text)
    )  # fmt: skip


def head(sheet: Sheet) -> Iterator[str]:
    """What stands under the title."""
    if sheet.faults:
        yield f'<p class="fault">{said(warning(sheet))}</p>'
    yield facts(Facts(tuple(cover(sheet))), "")
    yield from (f'<p class="note">{said(note)}</p>' for note in sheet.notes)


def bar(units: Sequence[str]) -> str:
    """The switch, which the script brings to life."""
    names = [*(UNIT_NAMES[unit] for unit in units), "both"]
    choices = [
        f'<label for="units-{value}"><input type="radio" name="units" id="units-{value}" value="{value}">{name}</label>'
        for value, name in zip(("0", "1", "both"), names, strict=True)
    ]
    return BAR.format(choices="\n".join(choices))


def section(one: Section) -> str:
    """A section with its heading; pictures that follow one another stand side by side."""
    lines = [f'<section id="{one.key}" aria-labelledby="h-{one.key}">', f'<h2 id="h-{one.key}">{said(one.title)}</h2>']
    pictures = [picture(block) for block in one.blocks if isinstance(block, Picture)]
    lines += [PRINTED[type(block)](block) for block in one.blocks if not isinstance(block, Picture)]
    lines += ['<div class="pictures">', *pictures, "</div>"] if pictures else []
    return "\n".join([*lines, "</section>"])


def para(block: Para) -> str:
    looks = f' class="{block.looks}"' if block.looks else ""
    return f"<p{looks}>{said(block.words)}</p>"


def facts(block: Facts, looks: str = ' class="terms"') -> str:
    rows = (f"<dt>{said(name)}</dt><dd>{said(words)}</dd>" for name, words in block.rows)
    return "\n".join([f"<dl{looks}>", *rows, "</dl>"])


def table(block: Table) -> str:
    """A table whose first column heads its rows."""
    lines = ["<table>", f"<caption>{said(block.caption)}</caption>", "<thead><tr>"]
    lines += [f'<th scope="col">{said(cell)}</th>' for cell in block.head]
    lines.append("</tr></thead>\n<tbody>")
    for first, *cells in block.rows:
        lines.append(
            f'<tr><th scope="row">{said(first)}</th>' + "".join(f"<td>{said(one)}</td>" for one in cells) + "</tr>"
        )
    lines.append("</tbody>\n</table>")
    return "\n".join(lines + ([f'<p class="total">{said(block.total)}</p>'] if block.total else []))


def steps(block: Steps) -> str:
    lines = [f"<h3>{said(block.title)}</h3>", f'<ol role="list" start="{block.lines[0].number}">']
    return "\n".join([*lines, *map(step, block.lines), "</ol>"])


def step(one: Line) -> str:
    """A step that can be ticked; its box is called by its number."""
    box = f'<input type="checkbox" id="step-{one.number}" autocomplete="off">'
    number = f'<span class="hear">Step </span>{one.number}<span class="hear"> done</span>'
    lines = [
        f'<li class="step"><label class="tick" for="step-{one.number}">{box}<span>{number}</span></label>',
        "<div>",
    ]
    lines += [f'<p class="note">{said(note)}</p>' for note in one.notes]
    lines.append(f'<p class="do">{said(one.sentence)}</p>')
    lines += [f'<p class="said">{said(one.said)}</p>'] if one.said else []
    lines += [f'<p class="care"><strong>Take care:</strong> {said(caution)}</p>' for caution in one.cautions]
    lines += [f'<p class="tags">{said(" · ".join(one.tags))}</p>'] if one.tags else []
    return "\n".join([*lines, "</div></li>"])


def picture(block: Picture) -> str:
    """An SVG in the page's own text: as an image it can neither run anything nor clash with another's names."""
    images = "".join(
        f'<img class="u{number}" alt="{bare(block.told, number)}" src="data:image/svg+xml;base64,'
        f'{b64encode(drawn.text().encode()).decode()}">'
        for number, drawn in enumerate(block.pages)
    )
    return f"<figure>{images}<figcaption>{said(block.name)}</figcaption></figure>"


# Each takes blocks of its own class, and no other.
PRINTED: dict[type, Callable[[Any], str]] = {Para: para, Facts: facts, Table: table, Steps: steps}
