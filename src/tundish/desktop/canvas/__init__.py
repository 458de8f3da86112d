"""Drawings on the screen: the same marks as on paper, painted in the window's colours."""
