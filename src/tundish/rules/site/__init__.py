"""What protects the house, what is carried away, and small things."""
