"""The roof: outlines, edges, panels on a plane, where they start."""
