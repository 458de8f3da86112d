"""What holds the pre-wall and the frames to wall and floor."""
