"""Receiving: what a coil may measure as it arrives, and how long it is."""
