"""The rule book: one small function a rule, a file a family, one tuple in reporting order."""
