"""Cloth as geometry: pieces, flat assemblies, shells, and what can be measured on them."""
