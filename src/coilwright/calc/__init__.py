"""The calculations: pure functions on plain floats, one subject a file."""
