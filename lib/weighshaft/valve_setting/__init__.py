"""Setting the valves on the air line."""
