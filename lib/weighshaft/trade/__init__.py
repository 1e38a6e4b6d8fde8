"""Published tables of the trade and the look-ups in them."""
