"""Cautions where the work can hurt someone. They defer to local codes, makers and licensed practice."""
