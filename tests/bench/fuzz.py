"""A long campaign of spoilt and grown recipes against everything that can be asked of one.

    python tests/bench/fuzz.py --minutes 30 --record /tmp/fuzz        # random damage and growth from the grammar
    python tests/bench/fuzz.py --short --minutes 60 --record /tmp/fuzz    # short recipes, one question each
    python tests/bench/fuzz.py --guided --minutes 30 --record /tmp/fuzz   # guided by coverage (atheris); --short too

It is no test: it takes as long as it is given, and chance decides what it tries (--seed says again what it tried).
Each input that makes something raise, hang or take long is kept in the folder of the record, with what happened.
"""

import argparse
import random
import re
import signal
import sys
import time
import traceback
from collections import Counter
from functools import cache
from pathlib import Path
from zlib import crc32

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "tests")]

HANGS = 20  # seconds that one question may take
SLOW = 1.0  # seconds a kilobyte, for a text of a kilobyte or more; a shorter one may take as long as a kilobyte
NUMBER = re.compile(r"\d+(?: \d+/\d+|/\d+|\.\d+)?")
WORD = re.compile(r"[^\W\d]\w*")
NUMBERS = '0 1 2 3 -1 1/0 0/1 0.001 1/2 1/3 3/8 99 1000 100000 1e9 1/7 999999999999 ½ 3/8" 12cm 1-1/2 2x3'.split()
SHORT = 500  # characters of a recipe that `--short` takes
SHARE_FEWEST = 0.03  # the search for the fewest changes may take a second by design: asked seldom


class Hang(Exception):
    """A question was not answered in time."""


def questions(text, before, chance):
    """(name, what asks it) for everything that can be asked of a text; `before` is the text that it was made from."""
    import stitchlang
    from stitchlang.build import build
    from stitchlang.ground.text import Source
    from stitchlang.reading.using import joined
    from stitchlang.show import cutting, cutting_data, findings, steps
    from stitchlang.show.compare import compare_text
    from stitchlang.work.compare import compare
    from stitchlang.work.cutting import cutting_in_sizes
    from stitchlang.work.layout import Refused, laid_out
    from stitchlang.work.mend import mended

    recipe = stitchlang.read(text, opener=another)

    def format_it():
        try:
            once = laid_out(text)
        except Refused:
            return
        assert laid_out(once) == once, "laid out twice is not laid out once"

    def check_it():
        for finding in stitchlang.check(recipe):
            assert 0 <= finding.at.start <= finding.at.end <= len(recipe.source.text), finding
            findings.finding_text(finding, recipe)

    def cut_it():
        lists = cutting_in_sizes(recipe)
        for show in (cutting.cutting_text, cutting_data.cutting_csv, cutting_data.cutting_json):
            show(recipe, lists, "both")

    def diff_it():
        old = build(joined(Source(before, "old"), another))
        compare_text(compare(old, recipe, None), old, recipe, "in")

    yield "check", check_it
    yield "steps", lambda: steps.steps_text(recipe, stitchlang.steps(recipe, "both"))
    yield "measure", lambda: [list(one.working.leaves()) for one in stitchlang.measure(recipe)]
    yield "format", format_it
    yield "cut", cut_it
    yield "mend", lambda: mended(text, opener=another)
    yield "diff", diff_it
    if chance.random() < SHARE_FEWEST:
        yield "fewest", lambda: stitchlang.steps(recipe, fewest=True)


def another(words, _):
    """Opens what a recipe uses: one of the seeds, by its name always the same."""
    texts = used_texts()
    return words, texts[crc32(words.encode("utf-8", "replace")) % len(texts)]


@cache
def used_texts():
    """Short recipes for others to use, those among them that use others themselves."""
    return [text for text in seeds() if len(text) < SHORT]


class Campaign:
    """What was tried, and what came of it; `one`: of each input one question is asked, not all."""

    def __init__(self, folder, seed, one=False):
        self.folder, self.chance, self.one = Path(folder), random.Random(seed), one
        self.folder.mkdir(parents=True, exist_ok=True)
        self.inputs = self.asked = self.characters = 0
        self.troubles = Counter()
        self.slowest = (0, "")
        self.begun = time.monotonic()

    def ask(self, text, before=""):
        """Ask everything of one text."""
        self.inputs += 1
        self.characters += len(text)
        try:
            asked = list(questions(text, before, self.chance))
            for name, question in [self.chance.choice(asked)] if self.one else asked:
                self.time(name, question, text)
        except Exception as error:
            self.keep("read", text, error)

    def time(self, name, question, text):
        """Ask one thing; keep the text where it raises, hangs or is slow."""
        self.asked += 1
        begun = time.process_time()
        signal.setitimer(signal.ITIMER_PROF, HANGS)  # of this process's own time: a busy machine is no hang
        try:
            question()
        except Exception as error:
            self.keep(name, text, error)
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
        pace = (time.process_time() - begun) / max(1, len(text) / 1000)
        if name != "fewest":
            self.slowest = max(self.slowest, (pace, name))
            if pace > SLOW:
                self.keep(name, text, f"slow: {pace:.2f} s a kilobyte")

    def keep(self, name, text, what):
        """Note a trouble; of one kind the shortest text is kept."""
        kind, told = f"{name} slow", what
        if isinstance(what, Exception):
            where = traceback.extract_tb(what.__traceback__)[-1]
            kind = f"{name} {type(what).__name__} {Path(where.filename).name}:{where.name}"
            told = "".join(traceback.format_exception(what))
        self.troubles[kind] += 1
        place = self.folder / re.sub(r"\W+", "-", kind)
        if not place.with_suffix(".stitch").exists() or place.with_suffix(".stitch").stat().st_size > len(text):
            place.with_suffix(".stitch").write_bytes(text.encode("utf-8", "surrogatepass"))
            place.with_suffix(".txt").write_text(told, "utf-8", "replace")

    def report(self):
        """One line of figures, and one for each kind of trouble."""
        minutes = (time.monotonic() - self.begun) / 60
        lines = [
            f"{self.inputs} inputs ({self.characters / 1e6:.1f} million characters), {self.asked} questions in "
            f"{minutes:.1f} min; slowest {self.slowest[0]:.2f} s a kilobyte ({self.slowest[1]})",
            *(f"{count:6} {kind}" for kind, count in self.troubles.most_common()),
        ]
        (self.folder / "report.txt").write_text("\n".join(lines) + "\n", "utf-8")
        return "\n".join(lines)


# ------------------------------------------------------------------ what is tried
def seeds():
    """Every whole recipe of ours, good and broken, and every rule's two examples."""
    from stitchlang.rules.catalogue import RULES

    folders = ("examples", "tests/field", "tests/broken")
    texts = [path.read_text("utf-8") for folder in folders for path in sorted((ROOT / folder).rglob("*.stitch"))]
    return texts + [text for rule in RULES for text in (rule.trips, rule.passes)]


def flip_bytes(text, chance, _):
    """A few bits of the bytes turned over; what is then no UTF-8 is replaced, as the door would refuse it."""
    data = bytearray(text.encode())
    for _ in range(chance.randint(1, 4)):
        if data:
            data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
    return data.decode("utf-8", "replace")


def swap_lines(text, chance, _):
    """Two lines change places, or one is doubled, dropped or run into the one above."""
    lines = text.split("\n")
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    what = chance.randrange(4)
    if what == 0:
        lines[one], lines[other] = lines[other], lines[one]
    elif what == 1:
        lines.insert(other, lines[one])
    elif what == 2:
        del lines[one]
    else:
        lines[one] = " " + lines[one]
    return "\n".join(lines)


def replaced(text, pattern, new, chance):
    """One match of a pattern made something else."""
    places = [match.span() for match in pattern.finditer(text)]
    if not places:
        return text
    start, end = chance.choice(places)
    return text[:start] + new + text[end:]


def change_number(text, chance, _):
    """A number made another."""
    return replaced(text, NUMBER, chance.choice((*NUMBERS, str(chance.randint(0, 60)))), chance)


def change_word(text, chance, stock):
    """A word made another of the same recipe, or of another one."""
    return replaced(
        text, WORD, chance.choice((WORD.findall(text) if chance.random() < 0.7 else stock.words) or ["a"]), chance
    )


def add_line(text, chance, stock):
    """A line of another recipe put in."""
    lines = text.split("\n")
    lines.insert(chance.randint(0, len(lines)), chance.choice(stock.lines))
    return "\n".join(lines)


def cut_out(text, chance, _):
    """A run of characters taken out."""
    start = chance.randint(0, len(text))
    return text[:start] + text[start + chance.randint(1, 20) :]


def use_another(text, chance, _):
    """A line put in that uses another recipe."""
    lines = text.split("\n")
    lines.insert(chance.randint(0, len(lines)), f'use "{chance.randrange(400)}.stitch"')
    return "\n".join(lines)


TWICE = (change_number, change_word)
DAMAGES = (flip_bytes, swap_lines, *TWICE, *TWICE, add_line, cut_out, use_another)


class Stock:
    """The recipes to spoil, and every word and line of them to put in the wrong place."""

    def __init__(self, texts):
        self.texts = texts
        every = "\n".join(texts)
        self.words, self.lines = WORD.findall(every), every.split("\n")


def spoil(campaign, stock, number):
    """So many recipes with one to six things done to them."""
    chance = campaign.chance
    for _ in range(number):
        before = text = chance.choice(stock.texts)
        for _ in range(chance.choice((1, 1, 2, 3, 6))):
            text = chance.choice(DAMAGES)(text, chance, stock)
        campaign.ask(text, before)


def grow(campaign, number):
    """So many runs of statements grown from the grammar, half of them about things that are there."""
    from hypothesis import HealthCheck, Phase, given, seed, settings
    from hypothesis import strategies as st
    from test_fuzz import PRELUDE, grown

    lines = st.tuples(st.booleans(), st.data())

    @seed(campaign.chance.randrange(2**32))
    @settings(
        max_examples=number,
        deadline=None,
        database=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(lines)
    def run(drawn):
        known, data = drawn
        found = [line.strip() for line in data.draw(st.lists(grown(known), min_size=1, max_size=6))]
        campaign.ask((PRELUDE if known else "") + "\n".join(found) + "\n", PRELUDE)

    run()


def guided(campaign, minutes):
    """Inputs that reach new branches are bred from; atheris decides which.  It ends the process itself."""
    try:
        import atheris
    except ImportError:
        print("atheris is not installed: the guided campaign is left out")
        return
    with atheris.instrument_imports(include=["stitchlang"]):
        import stitchlang.build
        import stitchlang.work.check  # noqa: F401
    corpus = campaign.folder / "corpus"
    corpus.mkdir(exist_ok=True)
    longest = SHORT if campaign.one else 6000
    for number, text in enumerate(text for text in seeds() if len(text) <= longest):
        (corpus / f"seed{number}").write_bytes(text.encode())

    def one(data):
        campaign.ask(data.decode("utf-8", "replace"))
        if campaign.inputs % 1000 == 0:
            campaign.report()

    options = [f"-max_total_time={int(minutes * 60)}", f"-max_len={longest}", "-timeout=60", "-verbosity=0"]
    atheris.Setup([sys.argv[0], *options, str(corpus)], one)
    atheris.Fuzz()


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--minutes", type=float, default=1)
    parser.add_argument("--record", default="fuzz-record", help="the folder that troubles and figures are written to")
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--guided", action="store_true", help="let coverage choose the inputs (wants atheris)")
    parser.add_argument("--short", action="store_true", help="short recipes, one question each: many more inputs")
    options = parser.parse_args()
    campaign = Campaign(options.record, options.seed, options.short)

    def ring(*_):
        raise Hang

    signal.signal(signal.SIGPROF, ring)
    if options.guided:
        guided(campaign, options.minutes)
        return
    stock = Stock([text for text in seeds() if not options.short or len(text) < SHORT])
    while time.monotonic() - campaign.begun < options.minutes * 60:
        spoil(campaign, stock, 4000 if options.short else 400)
        grow(campaign, 60)
        campaign.report()
    print(campaign.report())


if __name__ == "__main__":
    main()
