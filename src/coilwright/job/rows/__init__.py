"""Changes to lists of rows: planes, pieces of trim, arrivals. Marks move with their rows."""
