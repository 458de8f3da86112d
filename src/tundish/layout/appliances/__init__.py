"""The kinds of appliance, one file each: what hangs, how high, and what it is joined to."""
