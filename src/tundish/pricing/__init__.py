"""What the job costs and what the client pays."""
