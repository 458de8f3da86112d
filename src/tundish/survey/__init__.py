"""Facts: a room as it was found, measured on site."""
