"""The roof: its planes drawn, their edges, and what must be known of them."""
