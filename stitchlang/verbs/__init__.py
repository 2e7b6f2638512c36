"""The verbs: one module each, with its grammar lines, meaning, sentence and cautions.

A verb module offers

    STATION               where the work is done: machine, iron, hand, table, hardware
    mean(node, bench)     what the statement does to the recipe being built
    say(op, speech)       its sentence in the step list
    cautions(op)          keys of `stitchlang.cautions`, where it has any
"""

from . import (
    baste,
    box,
    cap,
    close,
    divide,
    fold,
    hem,
    join,
    leave,
    notch,
    place,
    press,
    set,
    slip,
    thread,
    topstitch,
    trim,
    turn,
)

VERBS = {
    module.__name__.rpartition(".")[2]: module
    for module in (
        baste,
        box,
        cap,
        close,
        divide,
        fold,
        hem,
        join,
        leave,
        notch,
        place,
        press,
        set,
        slip,
        thread,
        topstitch,
        trim,
        turn,
    )
}
