"""Printings: values in, text out.  Nothing here reads files, prints or exits."""
