"""Asking for finished sizes: which cuts must change, found by a solver and proven by working the recipe out again."""
