"""The pre-wall: its steel or timber, what joins it, and whether it fits the room."""
