"""Hot and cold: what brings it, what holds it, and what a flush may use."""
