"""The desktop program: one window on one job."""
