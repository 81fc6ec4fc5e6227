"""The summary as data: JSON, and the schema it follows."""
