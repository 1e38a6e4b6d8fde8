"""From decisions to metal: coordinates, set-ups, change wheels, and what they are worked with."""
