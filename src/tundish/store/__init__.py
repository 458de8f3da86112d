"""Keeping jobs, catalogue, stock and issued papers: job files, and the database in the user's data folder."""
