"""The ground floor: text, lengths, sums and findings.  It knows nothing of sewing."""
