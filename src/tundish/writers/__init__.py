"""The papers in the formats that are printed, sent and opened elsewhere."""
