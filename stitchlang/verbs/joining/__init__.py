"""Joining: what holds things together, and closes what was left open."""
