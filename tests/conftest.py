"""What holds for every test: none is timed, since a busy machine is no fault of ours."""

from hypothesis import settings

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
