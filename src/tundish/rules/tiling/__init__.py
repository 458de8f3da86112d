"""Tiles, and what beds, joins, edges and seals them."""
