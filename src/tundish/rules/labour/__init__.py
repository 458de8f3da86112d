"""Hours by stage, from the trader's own norms."""
