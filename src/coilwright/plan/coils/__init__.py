"""The coils: limits, cuts, those on hand, slitting, where the metal goes, the run."""
