"""The verbs: one module each, with its grammar lines, meaning, sentence and cautions.

They are kept by what a sewer calls the work.  A verb module offers

    STATION               where the work is done: machine, iron, hand, table, hardware
    mean(node, bench)     what the statement does to the recipe being built
    say(op, speech)       its sentence in the step list
    cautions(op)          keys of `stitchlang.cautions`, where it has any
    setup(op)             (station, how the machine is set), where that is not what `work.setups` would guess
"""

from .cutting import notch, slit, trim
from .fastening import divide, place, set, thread
from .finishing import bind, channel, hem, leave, topstitch
from .folding import dart, ease, fold, gather, lap, pleat, press, quilt, roll, turn, wrap
from .joining import baste, box, cap, close, join, slip

MODULES = (
    *(notch, slit, trim),
    *(dart, ease, fold, gather, lap, pleat, press, quilt, roll, turn, wrap),
    *(baste, box, cap, close, join, slip),
    *(divide, place, set, thread),
    *(bind, channel, hem, leave, topstitch),
)
VERBS = {module.__name__.rpartition(".")[2]: module for module in MODULES}
