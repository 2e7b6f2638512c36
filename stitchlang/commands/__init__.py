"""The commands: one module each, imported only when its command is run.

A command module offers

    arguments(parser)   its options, added to an argparse parser
    run(options)        the exit code

Nothing but these modules and `cli`, `files` and `terminal` touches files and streams.
"""

# Name to what it does, in the order in which the help lists them.
COMMANDS = {
    "new": "Write a starter recipe of a chosen form and finished sizes.",
    "check": "Report everything that is wrong with recipes.",
    "steps": "Print the ordered steps of a recipe.",
    "cut": "Print the cutting list and the shopping list of a recipe.",
    "draw": "Draw the pieces, flat assemblies, finished bag and construction graph of a recipe, as SVG.",
    "pattern": "Write the pieces of a recipe at true scale, to print: a PDF tiled over pages, or an SVG.",
    "sheet": "Write the complete instructions: text, Markdown, one HTML page or a PDF.",
    "measure": "Print every finished measure of a recipe.",
    "why": "Print the sum behind one finished measure.",
    "resize": "Find the cuts that give finished sizes.",
    "diff": "Print what changed in the bag from one recipe to another.",
    "rules": "Print the rule book, or one rule with its examples.",
    "format": "Lay recipes out in the one way; comments are kept.",
    "completion": "Print a script that lets bash, zsh or fish complete commands, options and paths.",
}

UNITS = ("in", "cm", "mm", "both")
SIZE_HELP = "one size of a recipe that has several; all of them, or the first, if not given"
UNITS_HELP = "the unit to print; the recipe's own if not given"
PATHS_HELP = "a recipe, a folder of recipes, or - for standard input"
