"""Finishing: what becomes of an edge."""
