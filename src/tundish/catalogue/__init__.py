"""Reference: what can be bought, and the dated figures of the rule book."""
