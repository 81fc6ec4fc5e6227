"""What the screens on planes share: they take the whole terminal."""

from __future__ import annotations

from typing import Generic

from coilwright.wizard.screens.over import Over, Result


class Whole(Over[Result], Generic[Result]):
    """A screen over the wizard with the styles of the screens on planes."""

    CSS_PATH = ["over.tcss", "../lists/lists.tcss"]  # type: ignore[assignment]  # Textual takes a list
