"""What the sewing trade publishes: formulas and figures, each with its source.  Knows no recipe."""
