"""Statements that declare: the heading, stuff, pieces, lets and claims."""
