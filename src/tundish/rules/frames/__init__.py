"""Frames and sanitaryware: what hangs where, and whether each frame suits its place."""
