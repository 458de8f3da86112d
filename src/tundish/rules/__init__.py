"""The rule book: what a careful fitter would need, check, warn of and settle."""
