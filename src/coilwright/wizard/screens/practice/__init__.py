"""Practice on the screen: the list, the brief, reviews, the projector, and drills."""
