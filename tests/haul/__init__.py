"""Hauling: trailer, axles, hitch, tow vehicle, and coils as cargo."""
