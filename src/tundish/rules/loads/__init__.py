"""What has to hold: the pull of a frame on the wall, the tiles on the board."""
