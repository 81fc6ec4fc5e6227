"""Lists of rows: planes, openings, trim, coils on hand, arrivals; one form for all of them."""
