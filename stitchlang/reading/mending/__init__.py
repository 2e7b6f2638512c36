"""What a statement that cannot be read was meant to be: small changes tried, the grammar the judge."""
