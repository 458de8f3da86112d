"""The pages of the window, one file a page; none knows another."""
