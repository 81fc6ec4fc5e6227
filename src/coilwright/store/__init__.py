"""What is kept on disk: jobs, coils on hand, and the examples that come with the program."""

from __future__ import annotations

from coilwright.store.files import Stamp, StoreError, home, read_text, write_whole
from coilwright.store.jobs import SUFFIX, Entry, Store, slug
from coilwright.store.reader import json_schema, read_model, to_text

__all__ = [
    "SUFFIX",
    "Entry",
    "Stamp",
    "Store",
    "StoreError",
    "home",
    "json_schema",
    "read_model",
    "read_text",
    "slug",
    "to_text",
    "write_whole",
]
