"""Drawings of roof planes, coils and the order's weight, in characters and as SVG."""
