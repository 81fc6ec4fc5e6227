"""Whether coils of another job go where those of the last one went: to a place of the buyer's."""

from __future__ import annotations

import re

from coilwright.job.job import Job
from coilwright.job.plain_name import plain_name
from coilwright.job.shop import Shop

_SHORTEST = 3
_COMMON = frozenset((
    "road", "street", "lane", "avenue", "ave", "drive", "way", "court", "place", "park", "hill",
    "highway", "route", "county", "north", "south", "east", "west", "new", "old", "the", "and",
    "our", "yard", "shop", "site", "house", "barn", "garage", "roof", "gravel", "invented",
))
"""Words that two places can share and still be two."""


def same_place_again(old: Job, shop: Shop) -> bool:
    """Whether a job like another has its coils sent to the same place: one of the shop, or one that
    is plainly another than the old job's site.

    A place at the old site, or one that may be, is nowhere to send another job's coils.
    """
    place = old.order.ship_to
    if not place.strip():
        return False
    site = old.job.site or ""
    if plain_name(place) == plain_name(site):
        return False
    if plain_name(place) == plain_name(shop.buyer.ship_to):
        return True
    of_site = _telling(site)
    of_job = of_site | _telling(old.job.client or "") | _telling(old.job.name or "")
    of_place = _words(place)
    return bool(of_site and of_place) and not of_job & of_place


def _telling(text: str) -> frozenset[str]:
    """The words by which a site is known: those of its first part, which a town is not."""
    return _words(text.partition(",")[0])


def _words(text: str) -> frozenset[str]:
    """The words that few places share."""
    return frozenset(word for word in re.findall(r"[^\W\d_]+", text.casefold())
                     if len(word) >= _SHORTEST and word not in _COMMON)
