"""Soil branches and wastes: what they are made of, and whether they run."""
