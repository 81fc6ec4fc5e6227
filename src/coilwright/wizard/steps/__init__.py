"""The steps, a file or a folder each, with all of one step together: its view, blocks and lines."""
