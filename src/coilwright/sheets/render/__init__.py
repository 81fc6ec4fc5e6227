"""Sheets set as HTML, Markdown, plain text and CSV, each with its own escaping."""
