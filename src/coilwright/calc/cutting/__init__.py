"""Cutting: panels from coils, and flat widths of trim from sheets, with the least metal.

`cutplan` shares panels out to coils on hand and new coils; `nesting` puts widths side by
side on equal sheets. Both say what they prove: a result, a bound nothing can go below, and
the gap between them.
"""
