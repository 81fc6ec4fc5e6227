"""What stands side by side and goes on below where there is no more room: nothing is cut off."""

from __future__ import annotations

from textual.containers import Horizontal
from textual.geometry import Region, Size
from textual.layout import ArrangeResult, Layout, WidgetPlacement
from textual.layouts.horizontal import HorizontalLayout
from textual.widget import Widget


class FlowLayout(HorizontalLayout):
    """Side by side; what no longer fits begins a row of its own below."""

    name = "flow"

    def arrange(
        self, parent: Widget, children: list[Widget], size: Size, greedy: bool = True
    ) -> ArrangeResult:
        """Where each stands in a place of a width in cells; 0 asks how wide it would like to be."""
        placed = []
        x = y = height = 0
        for placement in super().arrange(parent, children, size, greedy):
            region, margin = placement.region, placement.margin
            if x and 0 < size.width < x + region.width:
                x, y, height = 0, y + height, 0
            at = Region(x, y, region.width, region.height)
            placed.append(WidgetPlacement(at, *placement[1:]))
            x += region.width + margin.right
            height = max(height, region.height)
        return placed


class Bar(Horizontal):
    """A row of buttons or words to press, and further rows where one is too narrow."""

    def __init__(self, *children: Widget, classes: str = "bar") -> None:
        super().__init__(*children, classes=classes)
        self._flow = FlowLayout()

    @property
    def layout(self) -> Layout:
        """Side by side, and on below."""
        return self._flow
