"""Widgets the steps are drawn with."""
