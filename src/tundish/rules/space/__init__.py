"""Room for people: to the side of an appliance and in front of it."""
