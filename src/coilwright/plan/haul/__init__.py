"""Hauling and lifting: loads on the road and in the air held to their ratings."""
