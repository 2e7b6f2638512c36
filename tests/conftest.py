"""What holds for every test: none is timed, since a busy machine is no fault of ours."""

import os

from hypothesis import settings

# Where a change is judged, the same inputs are tried each time; new ones are the campaign's work (bench/fuzz.py).
settings.register_profile("untimed", deadline=None, derandomize="CI" in os.environ, print_blob=True)
settings.load_profile("untimed")
