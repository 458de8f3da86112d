"""What keeps the sound of water and flush out of walls and floors."""
