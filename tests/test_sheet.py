"""The sheet of instructions in its four formats; the page is judged by html5lib, the Markdown by markdown-it-py, the
PDF by pypdf, and the page's script by a browser, where there is one."""

import re
import subprocess
import sys
from io import BytesIO
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import stitchlang
from stitchlang.ground.lengths import MM
from stitchlang.show.sheet_html import sheet_html
from stitchlang.show.sheet_markdown import sheet_markdown
from stitchlang.show.sheet_text import sheet_text
from stitchlang.speech import PairedSpeech, Speech, spellings, spelt
from stitchlang.trade.glossary import TERMS, used
from stitchlang.work.sheet import sheet
from stitchlang.work.steps import steps

ROOT = Path(__file__).parent.parent
FOLDER = Path(__file__).parent / "sheet"
PEGS = FOLDER / "pegs.stitch"
SATCHEL = ROOT / "examples" / "satchel.stitch"
RECIPES = [PEGS, *sorted((ROOT / "examples").glob("*.stitch")), *sorted((ROOT / "tests" / "field").glob("*.stitch"))]
PAGES = [PEGS, SATCHEL, ROOT / "examples" / "bucket.stitch", ROOT / "tests" / "field" / "c40.stitch"]
HOSTILE = (
    "\x1b[31mred\x1b[0m \x07\x9b2J\u202eesrever \x0e\x0f\x10 <script>alert(1)</script> </title><b>&amp; {cover} "
    "[x](javascript:alert(1)) ![i](http://evil.example/x.png) **bold** `code` | # @nobody https://evil.example $x$ \\"
)
FORMULA = "=cmd|' /C calc'!A0"


def read(path):
    return stitchlang.read(path.read_text("utf-8"))


def page(recipe, units=("in", "cm"), first="in"):
    return sheet_html(sheet(recipe, PairedSpeech(units)), first)


def run(*arguments, text=None, program=("-m", "stitchlang", "sheet")):
    return subprocess.run(
        [sys.executable, *program, *map(str, arguments)], input=text, capture_output=True, cwd=ROOT, check=False
    )


def tree(text):
    """The page as html5lib reads it, which stops at the first thing that is not well formed."""
    import html5lib

    return html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(text)


def words(element, without=()):
    """The words of an element as they are read, those of some classes left out."""
    parts = [element.text or ""]
    for child in element:
        if child.get("class") not in without and child.tag not in ("script", "style"):
            parts.append(words(child, without))
        parts.append(child.tail or "")
    return "".join(parts)


def spaced(text):
    return " ".join(text.split())


def hostile(text):
    """A recipe whose every quoted word is hostile."""
    text = re.sub(r'"[^"\n]+"', lambda one: f'"{FORMULA} {HOSTILE} {one[0][1:-1]}"', text)
    return stitchlang.read(text + f'note "{FORMULA} {HOSTILE}"\n')


# ------------------------------------------------------------------ two units in one sentence
@given(st.fractions(min_value=0, max_value=3000, max_denominator=640))
def test_a_paired_length_holds_what_each_way_of_speaking_says(mm):
    both = PairedSpeech(("in", "cm")).length(mm)

    assert [spelt(both, 0), spelt(both, 1)] == [Speech("in").length(mm), Speech("cm").length(mm)]


@given(st.text(alphabet="ab\x02\x03\x0e\x0f\x10"))
def test_marks_that_a_writer_put_in_break_nothing(text):
    """Whatever stands between our marks, the parts are words in one spelling or in two."""
    assert all(len(part) in (1, 2) for part in spellings(text))
    assert re.sub("[\x0e-\x10]", "", spelt(text, 0) + spelt(text, 1)).count("a") <= 2 * text.count("a")


# ------------------------------------------------------------------ the same sheet, by hand
@pytest.mark.parametrize(("ending", "show"), [("txt", sheet_text), ("md", sheet_markdown)])
def test_the_sheet_of_a_peg_bag(ending, show):
    """Read through by hand when it was kept: 9 in cut less two seams of 1/2 in is 8 in, 12 1/4 less 1/2 and 1 1/2 is
    10 1/4; two panels of 9 lie side by side on 54 in, so 12 1/4 in of the sail is enough."""
    made = show(sheet(read(PEGS), Speech("both" if ending == "md" else "in")))

    assert made + "\n" == (FOLDER / f"pegs.{ending}").read_text("utf-8")


def test_the_page_of_a_peg_bag():
    """Kept without style, script and pictures, which have tests of their own."""
    made = re.sub(r"(?s)<(style|script)>.*?</\1>", r"<\1></\1>", page(read(PEGS)))
    made = re.sub(r'base64,[^"]+|sha256-[^\']+|data-sheet="\w+', lambda one: one[0][:7], made)

    assert made + "\n" == (FOLDER / "pegs.html").read_text("utf-8")


# ------------------------------------------------------------------ the page
@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_a_page_is_well_formed_and_needs_nothing_else(path):
    """html5lib in strict mode; nothing is loaded from anywhere; ids are unique, and what points at one finds it."""
    text = page(read(path))
    root = tree(text)
    ids = [one.get("id") for one in root.iter() if one.get("id")]
    targets = [one.get(name) for one in root.iter() for name in ("for", "aria-labelledby") if one.get(name)]
    links = [one.get("href")[1:] for one in root.iter("a")]
    style = root.find("head/style").text

    assert len(ids) == len(set(ids))
    assert {*targets, *links} <= set(ids)
    assert all(one.get("src").startswith("data:image/svg+xml;base64,") for one in root.iter("img"))
    assert not {"url(", "@import", "http"} & set(re.findall(r"url\(|@import|http", style))
    assert not [one.tag for one in root.iter() if one.tag in ("link", "iframe", "object", "embed", "base", "form")]
    assert "://" not in re.sub(r"base64,[^\"]+", "", text)


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_every_step_is_there_in_both_units(path):
    """What a reader of inches sees, and what one of centimetres sees, are the steps that `steps` gives for each."""
    recipe = read(path)
    shown = [one for one in tree(page(recipe)).iter("p") if one.get("class") == "do"]
    for unit, hidden in (("in", ("u1", "between")), ("cm", ("u0", "between"))):
        assert [spaced(words(one, hidden)) for one in shown] == [spaced(step.sentence) for step in steps(recipe, unit)]


def test_without_a_script_both_units_are_read_in_one_sentence():
    """1/4 in is 6.35 mm (the inch of 1959), shown to a tenth."""
    assert "1/4 in (about 6.4 mm) from the raw edge" in words(tree(page(read(PEGS))).find("body"))


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.stem)
def test_the_page_can_be_read_with_keys_and_by_ear(path):
    """WCAG 2.2: every input is labelled (3.3.2), headings go down one level at a time (1.3.1), there are landmarks and
    a way past them (2.4.1), pictures have words (1.1.1), the language is named (3.1.1)."""
    root = tree(page(read(path)))
    labels = {one.get("for"): spaced(words(one)) for one in root.iter("label")}
    inputs = [one.get("id") for one in root.iter("input")]
    levels = [int(one.tag[1]) for one in root.iter() if re.fullmatch(r"h[1-6]", one.tag)]

    assert inputs
    assert all(labels[one] for one in inputs)
    assert labels["step-1"] == "Step 1 done"
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))
    assert [len(root.findall(f"body/{tag}")) for tag in ("header", "main")] == [1, 1]
    assert root.find("body/a").get("href") == "#steps"
    assert all(one.get("alt") for one in root.iter("img"))
    assert root.get("lang") == "en"


def luminance(colour):
    """Relative luminance, as WCAG 2.2 defines it."""
    digits = colour[1:] if len(colour) == 7 else "".join(one * 2 for one in colour[1:])
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_colours_stand_out_enough():
    """WCAG 2.2 AA: 4.5 to 1 for words (1.4.3), 3 to 1 for what is operated (1.4.11), on screen and on paper."""
    style = (ROOT / "stitchlang" / "show" / "page" / "sheet.css").read_text("utf-8")
    palettes = [dict(re.findall(r"--(\w+): (#\w+)", block)) for block in re.findall(r":root \{([^}]+)\}", style)]

    assert len(palettes) == 3
    for palette in palettes:
        for front, back, least in (
            *(("ink", "paper", 4.5), ("quiet", "paper", 4.5), ("thread", "paper", 4.5), ("ink", "care", 4.5)),
            ("edge", "paper", 3),
        ):
            high, low = sorted((luminance(palette[front]), luminance(palette[back])), reverse=True)

            assert (high + 0.05) / (low + 0.05) >= least, (front, back)


def test_our_luminance_is_that_of_the_definition():
    """White on black is 21 to 1 (WCAG 2.2, contrast ratio: from 1 to 21); #777 on white is 4.48, just too little."""
    assert (luminance("#fff") + 0.05) / (luminance("#000") + 0.05) == pytest.approx(21)
    assert 1.05 / (luminance("#777777") + 0.05) == pytest.approx(4.48, abs=0.005)


# ------------------------------------------------------------------ hostile words
def test_hostile_words_are_words_on_the_page():
    """The page has one script, ours, let in by its digest; the title is what the writer wrote, escapes made visible."""
    from base64 import b64encode
    from hashlib import sha256

    text = page(hostile(SATCHEL.read_text("utf-8")))
    root = tree(text)
    scripts = list(root.iter("script"))
    policy = next(one.get("content") for one in root.iter("meta") if one.get("http-equiv"))

    assert len(scripts) == 1
    assert f"'sha256-{b64encode(sha256(scripts[0].text.encode()).digest()).decode()}'" in policy
    assert "<script>alert(1)</script> </title><b>&amp; {cover} [x](javascript:alert(1))" in words(
        root.find("body/header/h1")
    )
    assert not list(root.iter("b"))
    assert all(letter.isprintable() or letter == "\n" for letter in text)


def test_hostile_words_are_words_in_markdown():
    """markdown-it-py, with tables and automatic links on, makes no tag of them but those that we write."""
    from markdown_it import MarkdownIt

    tokens = MarkdownIt("gfm-like", {"html": True}).parse(
        sheet_markdown(sheet(hostile(SATCHEL.read_text("utf-8")), Speech("in")))
    )
    inline = [child for token in tokens for child in token.children or ()]

    assert {one.type for one in tokens} & {"html_block", "fence", "code_block", "hr", "blockquote_open"} == set()
    assert {one.type for one in inline} <= {
        "text",
        "text_special",
        "strong_open",
        "strong_close",
        "em_open",
        "em_close",
        "hardbreak",
        "softbreak",
    }


def test_markdown_keeps_the_numbers_of_the_steps():
    """Lists begin where the part before them ended: CommonMark takes a list's first number for its start."""
    from markdown_it import MarkdownIt

    tokens = MarkdownIt("gfm-like").parse(sheet_markdown(sheet(read(SATCHEL), Speech("in"))))
    starts = [one.attrs.get("start", 1) for one in tokens if one.type == "ordered_list_open"]
    parts = {step.part: step.number for step in reversed(steps(read(SATCHEL)))}

    assert starts == sorted(parts.values())


@pytest.mark.parametrize("first", ["- a", "+ a", "= a", "---", "1. a", "12) a", "1.", "====", "0.45 a", "    a"])
def test_words_that_begin_like_a_list_are_a_paragraph(first):
    """CommonMark's block starts, 0.31.2, sections 4 and 5."""
    from markdown_it import MarkdownIt

    from stitchlang.show.sheet_markdown import said

    tokens = MarkdownIt("gfm-like").parse(f"words\n\n{said(first)}\n")

    assert [one.type for one in tokens] == ["paragraph_open", "inline", "paragraph_close"] * 2
    assert "".join(one.content for one in tokens[4].children) == first.strip()


def test_hostile_words_move_no_cursor_in_text():
    text = sheet_text(sheet(hostile(SATCHEL.read_text("utf-8")), Speech("in")))

    assert all(letter.isprintable() or letter == "\n" for letter in text)
    assert "<script>alert(1)</script>" in text


def test_text_stays_within_its_columns():
    """88 columns, as everywhere; a word longer than that is left whole."""
    lines = sheet_text(sheet(read(SATCHEL), Speech("both"))).splitlines()

    assert max(map(len, lines)) <= 88


# ------------------------------------------------------------------ PDF
def pdf_pages(data):
    from pypdf import PdfReader

    return [spaced(one.extract_text()) for one in PdfReader(BytesIO(data)).pages]


def pdf(recipe, paper="a4"):
    pytest.importorskip("reportlab")
    from stitchlang.show.sheet_pdf import sheet_pdf

    return sheet_pdf(sheet(recipe, Speech("in")), paper)


@pytest.mark.parametrize(("paper", "wide", "tall"), [("a4", 210, 297), ("letter", 215.9, 279.4)])
def test_a_pdf_has_numbered_pages_and_whole_steps(paper, wide, tall):
    """ISO 216 A4 and ANSI A (8 1/2 x 11 in); no step is parted over two pages; its words can be taken out."""
    from pypdf import PdfReader

    recipe = read(SATCHEL)
    data = pdf(recipe, paper)
    pages = pdf_pages(data)
    box = PdfReader(BytesIO(data)).pages[0].mediabox

    assert (float(box.width) / 72 * 25.4, float(box.height) / 72 * 25.4) == pytest.approx((wide, tall), abs=0.01)
    assert all(f"page {number} of {len(pages)}" in text for number, text in enumerate(pages, 1))
    for step in steps(recipe, "in"):
        assert sum(spaced(step.sentence) in text for text in pages) == 1, step.sentence


def test_a_pdf_is_the_same_every_time_and_carries_hostile_words_as_words():
    recipe = hostile(PEGS.read_text("utf-8"))
    data = pdf(recipe)

    assert data == pdf(recipe)
    assert "<script>alert(1)</script>" in pdf_pages(data)[0]
    assert b"/JavaScript" not in data
    assert b"/URI" not in data


def test_a_step_longer_than_a_page_is_still_printed():
    long = "on and on " * 2000
    pages = pdf_pages(pdf(stitchlang.read(PEGS.read_text("utf-8").replace("At the left side seam.", long))))

    assert sum(text.count("on and on") for text in pages) > 1900


# ------------------------------------------------------------------ what is in it
@pytest.mark.parametrize("path", RECIPES, ids=lambda path: path.stem)
def test_every_piece_and_every_notion_is_listed(path):
    """Everything that is cut, bought or done stands in the text."""
    recipe = read(path)
    text = spaced(sheet_text(sheet(recipe, Speech(recipe.unit or "in"))))

    assert all(re.search(rf"\b{piece.name}\b", text.split("Cutting list")[1]) for piece in recipe.pieces)
    assert all(re.search(rf"\b{name}\b", text) for name in recipe.stuff)
    assert "Local product-safety rules" in text


def test_the_glossary_has_no_word_that_nobody_uses():
    """Each term is found in the sheet of some recipe, or in an example of the language's reference."""
    from test_reference import SECTIONS, example

    recipes = [*map(read, RECIPES), *(stitchlang.read(example(section)) for section in SECTIONS)]
    texts = [spaced(sheet_text(sheet(one, Speech("in")))).split("Words of the trade")[0] for one in recipes]
    found = {term.name for term in used("\n".join(texts))}

    assert {term.name for term in TERMS} - found == set()
    assert [term.name for term in TERMS] == sorted(term.name for term in TERMS)


def test_a_sheet_of_several_sizes_lists_each():
    """Panels of 9 and of 10 in: both in the cutting list, side by side in the steps."""
    made = sheet(read(PEGS), Speech("in"))

    assert [batch.cuts[0].wide / MM["in"] for lists in made.lists for batch in lists.batches[:1]] == [9, 10]
    assert "front 9 in / 10 in x 12 1/4 in" in sheet_text(made)


def test_a_recipe_with_faults_says_so_on_top():
    faulty = read(PEGS).source.text.replace("hem       bag.rim", "hem       front.top")
    made = sheet(stitchlang.read(faulty), PairedSpeech(("in", "cm")))

    assert made.faults
    assert "Do not cut from this sheet" in words(tree(sheet_html(made, "in")).find("body/header"))


# ------------------------------------------------------------------ the door
@pytest.mark.parametrize(
    ("name", "starts"),
    [("a.txt", b"Peg bag"), ("a.MD", b"# Peg bag"), ("a.html", b"<!doctype html>"), ("a.pdf", b"%PDF-")],
)
def test_the_ending_chooses_the_format(tmp_path, name, starts):
    if name.endswith("pdf"):
        pytest.importorskip("reportlab")
    done = run(PEGS, "-o", tmp_path / name)

    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")
    assert (tmp_path / name).read_bytes().startswith(starts)
    assert [one.name for one in tmp_path.iterdir()] == [name]


def test_standard_output_takes_every_format():
    assert run(PEGS).stdout == run(PEGS, "-o", "-", "--format", "text").stdout
    assert run(PEGS, "--format", "html").stdout.startswith(b"<!doctype html>")


def test_an_unknown_ending_and_a_place_that_cannot_be_written_are_told(tmp_path):
    """Exit code 2, a word, and nothing written."""
    (tmp_path / "there.md").mkdir()
    for out, word in (("a.doc", b"which format"), ("none/a.md", b"not written"), ("there.md", b"not written")):
        done = run(PEGS, "-o", tmp_path / out)

        assert done.returncode == 2
        assert word in done.stderr
        assert b"Traceback" not in done.stderr
    assert [one.name for one in tmp_path.iterdir()] == ["there.md"]


def test_a_missing_library_is_named():
    """As on a machine where reportlab was never installed."""
    program = "import sys; sys.modules['reportlab'] = None; from stitchlang.cli import run; run()"
    done = run("sheet", PEGS, "--format", "pdf", program=("-c", program))

    assert done.returncode == 2
    assert b"pip install" in done.stderr
    assert b"Traceback" not in done.stderr


def test_faults_exit_with_1(tmp_path):
    faulty = PEGS.read_text("utf-8").replace("hem       bag.rim", "hem       front.top")
    (tmp_path / "a.stitch").write_text(faulty, "utf-8")
    done = run(tmp_path / "a.stitch")

    assert done.returncode == 1
    assert b"run `stitchlang check`" in done.stderr


@given(st.text(max_size=60))
def test_no_title_breaks_a_page(title):
    """Whatever stands between the quotes."""
    text = re.sub(r'["\r\n]', " ", title)
    recipe = stitchlang.read(f'recipe "{text}"\nunits in\nallowance 1/2\npiece flag: 4 x 5\nhem flag edges by 1/2\n')
    root = tree(page(recipe))

    assert len(list(root.iter("script"))) == 1
    assert len(list(root.iter("h1"))) == 1


# ------------------------------------------------------------------ in a browser
@pytest.fixture(scope="module")
def browser():
    """Chromium without a window, as the system has it; nothing is downloaded."""
    from shutil import which

    found = which("chromium") or which("chromium-browser") or which("google-chrome")
    if found is None:
        pytest.skip("no Chromium on this system: apt-get install chromium")
    play = pytest.importorskip("playwright.sync_api", reason="pip install playwright")
    flags = "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    flags += "--disable-component-update --disable-sync"
    with play.sync_playwright() as started:
        one = started.chromium.launch(executable_path=found, args=flags.split())
        yield one
        one.close()


@pytest.fixture
def opened(browser, tmp_path):
    """The page of the peg bag, opened; at the end nothing may have been complained of or asked of a network."""
    path = tmp_path / "pegs.html"
    path.write_text(page(read(PEGS)), "utf-8")
    context, troubles = browser.new_context(), []
    one = context.new_page()
    one.on("console", lambda message: troubles.append(message.text))
    one.on("pageerror", lambda error: troubles.append(str(error)))
    one.on(
        "request", lambda asked: troubles.append(asked.url) if not asked.url.startswith(("file:", "data:")) else None
    )
    one.goto(path.as_uri())
    yield one
    context.close()
    assert troubles == []


def test_the_switch_shows_one_unit_or_both(opened):
    """Inches first, as the recipe is written; then centimetres; then both."""
    sentence = opened.locator(".do").nth(3)

    assert sentence.inner_text() == "Baste both ends of loop to the rim of bag, 1/4 in from the raw edge."
    opened.get_by_label("centimetres").check()
    assert sentence.inner_text() == "Baste both ends of loop to the rim of bag, about 6.4 mm from the raw edge."
    opened.get_by_label("both").check()
    assert "1/4 in (about 6.4 mm) from" in sentence.inner_text()
    opened.reload()
    assert opened.get_by_label("both").is_checked()


def test_ticks_are_counted_remembered_and_cleared(opened):
    """By keys alone: a box takes the focus, shows it, and the space bar ticks it."""
    box = opened.get_by_label("Step 2 done")
    box.focus()
    opened.keyboard.press("Space")

    assert box.evaluate("one => getComputedStyle(one).outlineStyle") == "solid"
    assert opened.locator("#done").inner_text() == "1 of 6 steps done"
    opened.reload()
    assert [one.is_checked() for one in opened.locator(".tick input").all()] == [False, True, *[False] * 4]
    opened.get_by_role("button", name="Clear ticks").click()
    assert opened.locator("#done").inner_text() == "0 of 6 steps done"


def test_a_browser_that_keeps_nothing_is_no_trouble(browser, tmp_path):
    """Where even asking for the storage is refused, the page works and forgets."""
    path, troubles = tmp_path / "pegs.html", []
    path.write_text(page(read(PEGS)), "utf-8")
    context = browser.new_context()
    context.add_init_script("Object.defineProperty(window, 'localStorage', {get() { throw new Error('no') }})")
    one = context.new_page()
    one.on("pageerror", lambda error: troubles.append(str(error)))
    one.goto(path.as_uri())
    one.get_by_label("Step 1 done").check()

    assert one.locator("#done").inner_text() == "1 of 6 steps done"
    assert troubles == []
    context.close()


def test_without_scripts_the_page_reads_and_offers_no_dead_switch(browser, tmp_path):
    path = tmp_path / "pegs.html"
    path.write_text(page(read(PEGS)), "utf-8")
    context = browser.new_context(java_script_enabled=False)
    one = context.new_page()
    one.goto(path.as_uri())

    assert not one.locator("#bar").is_visible()
    assert "1/4 in (about 6.4 mm) from" in one.locator(".do").nth(3).inner_text()
    context.close()


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_page_prints_whole_steps_without_its_switches(opened, paper):
    """Four or five sheets, as looked at: sizes and materials, cutting, pictures with the first steps, the rest."""
    pages = pdf_pages(opened.pdf(format=paper))
    printed = " ".join(pages)

    assert len(pages) in (4, 5)
    assert all(sum(spaced(step.sentence) in text for text in pages) == 1 for step in steps(read(PEGS), "in"))
    assert "Lengths in" not in printed
    assert "Clear ticks" not in printed
    assert "Skip to the steps" not in printed


def test_nothing_runs_over_the_side_of_a_small_screen(opened):
    """WCAG 2.2, reflow (1.4.10): at 320 pixels nothing has to be pushed sideways, even with both units."""
    opened.set_viewport_size({"width": 320, "height": 640})
    opened.get_by_label("both").check()

    assert opened.evaluate("document.documentElement.scrollWidth") <= 320
