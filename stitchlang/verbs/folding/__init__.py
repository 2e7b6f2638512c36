"""Folding and shaping: what changes how cloth lies, and how long its edges are."""
