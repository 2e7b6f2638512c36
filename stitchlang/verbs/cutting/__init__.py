"""Cutting: what takes cloth away, or opens it."""
