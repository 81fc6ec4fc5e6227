"""Whom an order's head says to call: a person and a phone belong to the supplier they are of."""

from __future__ import annotations

import dataclasses

from coilwright.job.from_shop import contacts_known, with_their_contact
from coilwright.job.job import Job
from coilwright.job.order import Order
from coilwright.job.quotes import Quote, QuoteSection
from coilwright.job.requests import Request
from coilwright.job.shop import Shop, Supplier

OURS = Order(supplier="Tern Hill (invented)", attention="T. Hill", supplier_phone="555-0177")
SHOP = Shop(suppliers=(
    Supplier(name="Tern Hill (invented)", contact="T. Hill", phone="555-0177"),
    Supplier(name="Slate Creek (invented)", contact="S. Creek", phone="555-0123")))


def retyped(name: str, shop: Shop = SHOP, job: Job | None = None, **since: str) -> Order:
    """The head once another name was typed over its supplier's."""
    order = dataclasses.replace(OURS, supplier=name, **since)
    return with_their_contact(
        dataclasses.replace(job or Job(), order=order), OURS, shop).order


def test_another_supplier_brings_its_own_person_and_phone_or_none() -> None:
    other = retyped(" slate  creek (invented)")
    assert (other.attention, other.supplier_phone) == ("S. Creek", "555-0123")
    unknown = retyped("Westering Coil (invented)")
    assert (unknown.attention, unknown.supplier_phone) == ("", "")
    asked = Job(requests=(Request(supplier="Westering Coil (invented)", number="R1",
                                  contact="W. Ering", phone="555-0160"),),
                quotes=QuoteSection(received=(
                    Quote(supplier="Westering Coil (invented)", by="Q. Uoter"),)))
    known = retyped("Westering Coil (invented)", Shop(), asked)
    assert (known.attention, known.supplier_phone) == ("Q. Uoter", "555-0160")


def test_the_same_name_and_what_was_typed_since_stay() -> None:
    assert retyped("TERN HILL (invented) ").attention == "T. Hill"
    since = retyped("Westering Coil (invented)", supplier_phone="555-0199")
    assert (since.attention, since.supplier_phone) == ("", "555-0199")
    picked = retyped("Westering Coil (invented)", attention="S. Creek", supplier_phone="555-0123")
    assert (picked.attention, picked.supplier_phone) == ("", ""), "another's, by the shop"
    first = with_their_contact(
        Job(order=dataclasses.replace(OURS, supplier="Slate Creek (invented)")),
        dataclasses.replace(OURS, supplier=""), SHOP).order
    assert first.supplier_phone == "555-0177", "nobody else was named before"
    assert contacts_known(Job(), SHOP, " tern hill (invented)")["supplier_phone"] == ("555-0177",)
