"""`python -m stitchlang`: the command line."""

from .cli import run

run()
