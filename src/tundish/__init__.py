"""Tundish: survey, setting out, materials, cutting, orders and price for wall-hung sanitaryware on concealed frames."""

__version__ = "0.1.0"
