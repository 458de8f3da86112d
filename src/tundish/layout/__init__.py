"""Choices, and a room worked out from them."""
