"""What has to be settled while the wall is open."""
