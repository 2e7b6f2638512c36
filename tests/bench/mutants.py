"""How much of a small slip in the program the tests would see: slips made on purpose, one at a time.

    python tests/bench/mutants.py --number 400 --seed 0

Each slip (see slips.py) changes one place in `ground`, `model` or `rules`.  The quick tests are collected once, and
run once to learn which of them reach which function.  For each slip the process forks; the child gives the function
its spoilt code in place, so that all who hold it have it, and runs the tests that reach it, the shortest first, until
one fails or takes far longer than it did.  A slip in what is worked out when a module is loaded is made in a process
of its own, which loads everything anew.  What no test sees is listed: a hole in the tests, or no slip at all.
"""

import argparse
import functools
import gc
import os
import random
import resource
import signal
import subprocess
import sys
import time
from collections import Counter, defaultdict
from cProfile import Profile
from importlib.abc import MetaPathFinder
from importlib.machinery import SourceFileLoader
from importlib.util import spec_from_file_location
from itertools import islice
from types import CodeType, FunctionType

import pytest
from _pytest.runner import runtestprotocol
from slips import ROOT, Module, every_slip, key

QUICK = """
    test_rules test_examples test_broken test_field test_bulk test_placing test_cutting test_order test_slips_seen
    test_drawstrings test_linings test_zips test_tubes test_rows test_sizes test_promises test_allow test_slips_in_print
    test_found_by_fuzzing test_mistakes test_mend test_laws test_ground test_boundaries test_recorded
    test_using test_slanted_corners test_folded_up test_sentences test_bad_statements
    outside/test_boxed_and_round outside/test_classes outside/test_needles outside/test_packing
    outside/test_pi_and_roots outside/test_shaped_edges outside/test_thread outside/test_units""".split()
LONG = 0.1  # seconds: a test that takes longer is left out
PATIENCE = 3.0  # seconds of work that a test may take beyond ten times what it took, before it is said to hang
MEMORY = 2 << 30  # bytes that a child may use before it is said to fail
WHOLE = 300  # seconds of work for all tests in a process of their own


def quick_tests():
    """The arguments with which pytest collects the quick tests, in this process."""
    return ["-o", "addopts=", "-p", "no:cacheprovider", "-p", "no:terminal"] + [
        str(ROOT / "tests" / f"{name}.py") for name in QUICK
    ]


def fails(item):
    """Whether a test fails."""
    return any(report.failed for report in runtestprotocol(item, log=False))


class Reach(Profile):
    """Knows which functions are run while it is enabled."""

    def keys(self):
        """What was run, of the project's own."""
        codes = [entry.code for entry in self.getstats() if isinstance(entry.code, CodeType)]
        return {key(code) for code in codes if code.co_filename.startswith(str(ROOT / "stitchlang"))}


class Timed:
    """A test, how long it takes and what it reaches."""

    def __init__(self, item):
        self.item = item
        start = time.process_time()
        with Reach(builtins=False) as reach:
            self.failed = fails(item)
        self.seconds = time.process_time() - start
        self.keys = reach.keys()

    def sees(self):
        """Whether the test fails, or hangs: then the alarm ends the process."""
        signal.setitimer(signal.ITIMER_PROF, 10 * self.seconds + PATIENCE)
        return fails(self.item)


def forget():
    """Empty what was kept from earlier runs."""
    for one in gc.get_objects():
        if isinstance(one, functools._lru_cache_wrapper) and one.__module__.startswith(("stitchlang", "test")):
            one.cache_clear()


def forked(work):
    """Whether work, done in a process of its own, comes out true or does not come out at all."""
    child = os.fork()
    if not child:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 2)
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
        seen = True
        try:
            seen = work()
        finally:
            os._exit(seen)
    return os.waitpid(child, 0)[1] != 0


def functions():
    """What functions there are of the project's own, by the file they are written in."""
    found = defaultdict(list)
    for one in gc.get_objects():
        if isinstance(one, FunctionType) and one.__code__.co_filename.startswith(str(ROOT / "stitchlang")):
            found[one.__code__.co_filename].append(one)
    return found


class Campaign:
    """The slips one after the other; pytest calls it in place of running the tests that it collected."""

    def __init__(self, chosen, quick):
        self.chosen = chosen
        self.quick = quick
        self.tally = Counter()
        self.out = os.fdopen(os.dup(1), "w")  # pytest keeps the usual way out to itself

    def pytest_runtestloop(self, session):
        """Learn what the tests reach, then make the slips."""
        self.loading.disable()
        self.loaded = self.loading.keys()
        tests = [Timed(item) for item in session.items if not item.get_closest_marker("hypothesis")]
        if any(test.failed for test in tests):
            sys.exit("the tests fail as it is: " + ", ".join(test.item.name for test in tests if test.failed))
        self.tests = sorted((test for test in tests if test.seconds < LONG), key=lambda test: test.seconds)
        print(f"{len(self.tests)} tests, {sum(test.seconds for test in self.tests):.0f} s", file=self.out, flush=True)
        self.functions = functions()
        forget()
        self.control()
        gc.collect()
        gc.freeze()
        for slip in self.chosen:
            self.judge(*slip)
        return True

    def control(self):
        """Without a slip no test may fail in a forked process, or one that takes away what it needs would be a slip."""
        if forked(lambda: any(test.sees() for test in self.tests)):
            sys.exit("the tests fail in a forked process: nothing can be said")

    def judge(self, path, number, line, what):
        """Count one slip, and tell it if no test sees it."""
        start = time.perf_counter()
        how = self.outcome(path, number)
        self.tally[how] += 1
        done = sum(self.tally.values())
        if how == "not seen" or not done % 25:
            text = (ROOT / path).read_text("utf-8").splitlines()[line - 1].strip()
            seconds = time.perf_counter() - start
            print(
                f"{done:4} {how} ({seconds:.1f} s): {path}:{line} #{number}: {what}: {text}", file=self.out, flush=True
            )

    def outcome(self, path, number):
        """'seen', 'not seen', or 'the same' where the slip comes to the same code."""
        module = Module(path, number)
        changed = module.changed()
        if not changed:
            return "the same"
        live = {key(one.__code__) for one in self.functions[module.path]}
        if live & set(changed):
            if forked(lambda: self.spoil(module) or self.seen_by(changed[0])):
                return "seen"
            if self.quick or changed[0] not in self.loaded:
                return "not seen"
        elif self.quick:
            return "left out"
        return "seen" if self.anew(path, number) else "not seen"

    def spoil(self, module):
        """Give every function of a module the code that it has with the slip made."""
        renewed = module.renewed()
        for one in self.functions[module.path]:
            one.__code__ = renewed.get(key(one.__code__), one.__code__)

    def seen_by(self, code):
        """Whether a test that reaches a code fails."""
        return any(test.sees() for test in self.tests if code in test.keys)

    def anew(self, path, number):
        """Whether the tests see a slip when all is loaded anew; those that reach the module come first."""
        file = str(ROOT / path)
        near = sorted(self.tests, key=lambda test: all(code[0] != file for code in test.keys))
        names = "\n".join(test.item.nodeid for test in near)
        command = [sys.executable, __file__, "--anew", path, str(number)]
        return subprocess.run(command, input=names, text=True, capture_output=True, check=False).returncode != 0

    def collect(self):
        """Let pytest collect the tests, and know what is run while the modules are loaded."""
        self.loading = Reach(builtins=False)
        self.loading.enable()
        return pytest.main(quick_tests(), plugins=[self])


class Spoilt(SourceFileLoader, MetaPathFinder):
    """Finds and loads one module with a slip made."""

    def __init__(self, path, number):
        self.module = Module(path, number)
        super().__init__(path.removesuffix(".py").replace("/", "."), self.module.path)

    def find_spec(self, name, *_):
        return spec_from_file_location(name, self.path, loader=self) if name == self.name else None

    def get_code(self, _):
        return self.module.after


class Anew:
    """Runs the tests of these names until one fails; pytest calls it in place of running them itself."""

    def __init__(self, names):
        self.names = names

    def pytest_runtestloop(self, session):
        items = {item.nodeid: item for item in session.items}
        session.testsfailed = any(fails(items[name]) for name in self.names)
        return True


def draw(possible, options):
    """As many slips as are asked for, at random."""
    if not options.loading:
        return random.Random(options.seed).sample(possible, min(options.number, len(possible)))
    every = random.Random(options.seed).sample(possible, len(possible))
    return list(islice((one for one in every if Module(*one[:2]).at_loading()), options.number))


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("--number", type=int, default=150)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--within", default="", metavar="TEXT", help="only modules whose path has this in it")
    which = parser.add_mutually_exclusive_group()
    which.add_argument("--functions", action="store_true", help="none at loading: far faster")
    which.add_argument("--loading", action="store_true", help="only what is worked out at loading")
    parser.add_argument("--anew", nargs=2, metavar=("MODULE", "SLIP"), help="make one slip and run the tests")
    options = parser.parse_args()
    if options.anew:
        resource.setrlimit(resource.RLIMIT_CPU, (WHOLE, WHOLE))
        sys.meta_path.insert(0, Spoilt(options.anew[0], int(options.anew[1])))
        sys.exit(pytest.main(quick_tests(), plugins=[Anew(sys.stdin.read().splitlines())]))
    possible = [slip for slip in every_slip() if options.within in slip[0]]
    chosen = draw(possible, options)
    campaign = Campaign(chosen, options.functions)
    campaign.collect()
    print(", ".join(f"{count} {how}" for how, count in campaign.tally.items()), f"of {len(possible)} that there are")


if __name__ == "__main__":
    main()
