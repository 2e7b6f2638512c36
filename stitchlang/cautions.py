"""Cautions that belong to steps: what is said, and what it rests on.

Each defers to local product-safety rules and licensed practice; none says that
a good is safe.
"""

CAUTIONS = {
    # Common practice, repeated in rotary-cutter safety notes of quilting teachers.
    "cutter": "Close the rotary cutter after every cut, keep fingers back from the ruler's edge, wear closed shoes.",
    # Common practice, no source.
    "iron": "Iron and steam burn: keep hands clear, test the heat on a scrap, and stand the iron up.",
    "fusing": "Fuse with a press cloth on a scrap first; let it cool flat before handling.",
    # Common practice, no source.
    "coated": "Do not iron coated cloth: crease it with a bone folder. Pin in the allowances: holes stay.",
    # Domestic machine manuals: a needle that strikes metal can break and fly.
    "teeth": "Stop before metal teeth and turn the handwheel past them by hand; wear eye protection.",
    "metal": "Keep the foot and needle clear of the hardware: a needle that strikes metal breaks and flies.",
    # Domestic machine manuals: a thin needle in thick cloth can bend or break; the rest common practice, no source.
    "bulk": "Thick here: a needle can bend, break and fly. Flatten the hump, turn the handwheel over it by hand, keep "
    "fingers clear and wear eye protection.",
    # 16 CFR 1262 speaks of loose magnets in other goods; the hazard is the same.
    "magnet": "Swallowed magnets injure: not for young children's goods; keep away from pacemakers and other implants.",
    # Common practice, no source.
    "small parts": "Small parts can choke: on goods for young children follow the local product-safety rules.",
    "strap": "Not for lifting, climbing, or carrying or restraining a person; no load is promised. "
    "Long loose straps and cords are a danger to small children: follow the local rules.",
    # EN 14682:2014 limits cords on children's clothing and expressly leaves bags out (Tukes, tukes.fi); the advice
    # itself is common practice.
    "cord": "Cords can strangle: on goods for children keep them short, without loops and long loose ends; the rules "
    "for cords on clothing do not cover bags, so follow the local rules for the good at hand.",
    # ASTM and maker figures for nylon melting; open flame: common practice, no source.
    "searing": "Singeing a cut end with a flame burns skin and gives off fumes: work outdoors, away from anything that "
    "catches fire, or use a hot knife made for it.",
    "prongs": "Prongs and punches are sharp: press them down with a tool, not a finger.",
}
AFTERWORD = (
    "These cautions are the usual ones and not complete. Local product-safety rules, "
    "the makers' instructions and licensed practice come first."
)
