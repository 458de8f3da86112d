"""Every end meets its mate: whether what is on the list joins all that has to be joined."""
