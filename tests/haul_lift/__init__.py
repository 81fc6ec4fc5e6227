"""Tests of the haul and lift step on screen, its sheet and its rows."""
