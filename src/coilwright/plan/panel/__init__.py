"""The panels: laid on the planes, their checks, and coverage widths compared."""
