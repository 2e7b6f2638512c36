"""Fastening: what is put onto a panel or passed through it."""
