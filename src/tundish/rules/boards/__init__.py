"""Boards and tanking on the faces of the pre-wall."""
