"""My rigs on the Haul step: picked from the shop, or saved to it as the step has them."""

from __future__ import annotations

import dataclasses

from textual.app import ComposeResult

from coilwright.job.fields import LONGEST_NAME
from coilwright.job.from_shop import keep_rig, rig_is_given, with_rig
from coilwright.job.shop import Rig, Shop, find, put
from coilwright.store import StoreError
from coilwright.store.shop import load_shop
from coilwright.wizard.context import Context
from coilwright.wizard.literal import escape_controls
from coilwright.wizard.shop_session import change_shop
from coilwright.wizard.widgets.blocks import BarButton, Block, ButtonBar


class RigBlock(Block):
    """Two buttons: a rig from the shop, and this one into it."""

    def compose(self) -> ComposeResult:
        """The buttons."""
        yield ButtonBar(
            BarButton("Pick one of my rigs", id="pick-rig", action="screen.pick_rig"),
            BarButton("Keep in shop", id="save-rig", action="screen.keep_rig"),
        )


class RigController:
    """Takes a rig from the shop into the job, and keeps the job's in the shop."""

    def __init__(self, context: Context) -> None:
        self._context = context

    def _shop(self) -> Shop | None:
        try:
            shop, trouble = load_shop(self._context.session.store.folder)
        except StoreError as error:
            shop, trouble = None, str(error)
        if trouble:
            self._context.say(trouble, title="My shop", severity="error", timeout=15)
        return shop

    def pick(self) -> None:
        """Pick a rig of the shop; it comes as sure as it was kept."""
        from coilwright.wizard.screens.pick import PickScreen

        shop = self._shop()
        if shop is None:
            return
        if not shop.rigs:
            self._context.say("No rig is in your shop yet: type one here, then save it (Ctrl+S).")
            return

        def picked(name: str | None) -> None:
            rig = find(shop.rigs, name) if name is not None else None
            if rig is not None:
                self._take(rig)

        names = tuple(rig.name for rig in shop.rigs)
        self._context.open(PickScreen("My rigs", names, ""), picked)

    def _take(self, rig: Rig) -> None:
        context = self._context
        context.session.seal()
        if context.session.change(with_rig(context.session.job, rig), f"Rig {rig.name}"):
            context.changed()
        context.say(f"{escape_controls(rig.name)} is on this job, as it was saved; what was a "
                    "guess still is. The plates decide.")

    def save(self) -> None:
        """Keep the job's rig in the shop under a name."""
        from coilwright.wizard.screens.lines import Line, LinesScreen

        context = self._context
        if not rig_is_given(context.session.job):
            context.say("There is no rig to save yet: type what its plates say.")
            return
        shop = self._shop()
        if shop is None:
            return
        alone = shop.rigs[0] if len(shop.rigs) == 1 else None

        def given(said: tuple[str, ...] | None) -> None:
            if said is not None:
                self._save(said[0].strip()[:LONGEST_NAME], said[1].strip()[:200])

        context.open(LinesScreen(
            "Save the rig to my shop", "Trailer, tow vehicle and lifting gear, without what "
            "belongs to this load. One of the same name is replaced.",
            (Line("Name", "" if alone is None else alone.name, "such as Gray gooseneck"),
             Line("About", "" if alone is None else alone.about, "may stay empty", empty=True)),
        ), given)

    def _save(self, name: str, about: str) -> None:
        context = self._context
        rig = keep_rig(context.session.job, name, about)
        try:
            change_shop(context.session.store,
                        lambda shop: dataclasses.replace(shop, rigs=put(shop.rigs, rig)))
        except StoreError as error:
            context.say(str(error), title="Not saved", severity="error", timeout=15)
            return
        context.say(f"{escape_controls(name)} is in your shop; the next job picks it.")
