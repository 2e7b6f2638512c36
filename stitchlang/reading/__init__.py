"""Text in, statements out: the scanner, the parser and its tables."""
