"""Cut lists: bars and sheets, cut with least waste."""
