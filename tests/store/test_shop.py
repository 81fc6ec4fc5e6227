"""My shop: the file it is kept in, what a job takes from it, and sharing it with a partner."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from coilwright.job.answers import ANSWERS
from coilwright.job.answers.haul import HaulKey
from coilwright.job.answers.machine import MachineKey
from coilwright.job.choices import YesNo
from coilwright.job.edit import give, new_job
from coilwright.job.from_shop import (
    keep_machine,
    keep_rig,
    rig_is_given,
    start,
    with_machine,
    with_rig,
)
from coilwright.job.haul import HitchKind, LiftBy
from coilwright.job.job import Job
from coilwright.job.metal import MetalName
from coilwright.job.panel import Seam
from coilwright.job.shop import Buyer, KeptMachine, Rig, SharedShop, Shop, Supplier, merge
from coilwright.job.stock import Stock
from coilwright.store import StoreError, read_model, to_text
from coilwright.store.shipped import machines
from coilwright.store.shop import load_shop, read_shared, read_shop, save_shop, shop_path
from coilwright.values.standing import Standing
from tests.cases import set_answers
from tests.plan.coils.stock import coil


def typed_job() -> Job:
    """A job with a machine and a rig typed in, one value of each a guess, and loads of its own."""
    job = new_job("Barn")
    job = give(job, "metal.metal", MetalName.STEEL)
    job = give(job, "panel.seam", Seam.DOUBLE_LOCK)
    job = give(job, "panel.leg", 2.0)
    for key, value in (
        (MachineKey.NAME, "Old blue"), (MachineKey.THINNEST, 0.02), (MachineKey.THICKEST, 0.03),
        (MachineKey.PROFILE_TAKE_UP, 4.5), (MachineKey.RACK_LOAD, 6000.0), (MachineKey.ARBORS, 2),
        (HaulKey.TRAILER_GVWR, 14_000.0), (HaulKey.AXLES, 2), (HaulKey.HITCH, HitchKind.BALL),
        (HaulKey.TONGUE_WEIGHT, 1400.0), (HaulKey.RACK_COILS, 2),
        (HaulKey.SHOP_BY, LiftBy.FORKLIFT),
        (HaulKey.SHOP_FORK_CAPACITY, 5000.0), (HaulKey.SHOP_COIL_CENTER, 20.0),
    ):
        job = give(job, key, value)
    job = give(job, MachineKey.WEIGHT, 7000.0, Standing.GUESS)
    return give(job, HaulKey.TOW_GVWR, 11_000.0, Standing.GUESS)


def shop() -> Shop:
    job = typed_job()
    return Shop(
        buyer=Buyer(company="Gable & Seam (invented)", contact="A. Field", phone="555-0100",
                    email="a@example.com", bill_to="PO Box 1", ship_to="1 Yard Rd",
                    hours="7 to 3", unloading="forklift, 5,000 lb"),
        machines=(keep_machine(job, "Old blue"),), rigs=(keep_rig(job, "Gray trailer"),),
        suppliers=(Supplier(name="Birch & Daughters (invented)", email="b@example.com",
                            supplies="steel coil, slit"),),
        next_order=7, typed={"shop.x": "half typed"},
    )


def test_a_shop_comes_back_as_it_was_saved(tmp_path: Path) -> None:
    assert load_shop(tmp_path) == (Shop(), "")
    save_shop(tmp_path, shop())
    assert load_shop(tmp_path) == (shop(), "")
    assert '"14000 lb"' in shop_path(tmp_path).read_text("utf-8")  # readable, with its unit


def test_a_damaged_shop_is_set_aside_as_it_is_and_said(tmp_path: Path) -> None:
    shop_path(tmp_path).write_text("{ half", "utf-8")
    found, trouble = load_shop(tmp_path)
    assert found == Shop()
    assert "damaged" in trouble
    assert (tmp_path / "shop.damaged-1.json").read_text("utf-8") == "{ half"


def test_a_shop_that_is_only_read_or_newer_stays_where_it_is(tmp_path: Path) -> None:
    for content in ("{ half", '{"format": "coilwright-shop", "version": 9}'):
        shop_path(tmp_path).write_text(content, "utf-8")
        with pytest.raises(StoreError):
            read_shop(tmp_path)
    with pytest.raises(StoreError, match="newer"):
        load_shop(tmp_path)
    assert [p.name for p in tmp_path.iterdir()] == ["shop.json"]


@pytest.mark.parametrize(("text", "words"), [
    ('{"format": "coilwright-shop", "version": 2, "rigs": [{"name": " "}]}', "name is wanted"),
    ('{"format": "coilwright-shop", "version": 2, "suppliers": [{"name": "A"}, {"name": "a "}]}',
     "two suppliers are called “a ”"),
    ('{"format": "coilwright-shop", "version": 2, "owner": "x"}', "owner: there is no such field"),
    ('{"format": "coilwright-shop", "version": 9}', "newer Coilwright"),
    ('{"format": "coilwright-stock", "version": 2}', "is a list of coils on hand, not a shop."),
    ('{"format": "coilwright-shop", "version": 2, "rigs": [{"name": "R", "haul": '
     '{"trailer_gvwr": "12 in"}}]}', "rigs.0.haul.trailer_gvwr"),
    ('{"format": "coilwright-shop", "version": 2, "buyer": {"company": "' + "x" * 201 + '"}}',
     "0 to 200 characters"),
])
def test_a_shop_that_cannot_be_is_refused_in_words(text: str, words: str) -> None:
    with pytest.raises(StoreError, match=words):
        read_model(text, Shop, "shop.json")


def test_a_machine_typed_once_is_picked_again_as_sure_as_it_was() -> None:
    kept = keep_machine(typed_job(), "Old blue")
    fresh = give(give(give(new_job("Shed"), "metal.metal", MetalName.STEEL),
                      "panel.seam", Seam.DOUBLE_LOCK), "panel.leg", 2.0)
    job = with_machine(fresh, kept)
    assert job.machine == typed_job().machine
    for key in (MachineKey.THINNEST, MachineKey.PROFILE_TAKE_UP, MachineKey.RACK_LOAD):
        assert ANSWERS[key].standing(job) is Standing.SURE
    assert ANSWERS[MachineKey.WEIGHT].standing(job) is Standing.GUESS


def test_a_machine_typed_into_the_shop_comes_by_the_name_it_has_there() -> None:
    job = start(Job(), Shop(machines=(KeptMachine(name="Old blue"),)))
    assert job.machine.name == "Old blue"
    assert with_machine(Job(), keep_machine(typed_job(), "Blue")).machine.name == "Blue"


def test_what_was_confirmed_for_one_metal_is_a_guess_for_another() -> None:
    example = next(m for m in machines().values() if len(m.forms) > 1)
    metal, other = list(example.forms)[:2]
    first = dataclasses.replace(give(Job(), "metal.metal", metal), machine=example)
    kept = keep_machine(first, "Mine")  # nothing of it marked: all confirmed, for this metal
    again = with_machine(give(Job(), "metal.metal", other), kept)
    assert ANSWERS[MachineKey.THICKEST].standing(again) is Standing.GUESS
    assert ANSWERS[MachineKey.THICKEST].standing(
        with_machine(give(Job(), "metal.metal", metal), kept)) is Standing.SURE
    both = keep_machine(give(again, MachineKey.THICKEST, 0.03), "mine", (kept,))
    for one in (metal, other):
        job = with_machine(give(Job(), "metal.metal", one), both)
        assert ANSWERS[MachineKey.THICKEST].standing(job) is Standing.SURE


def test_a_rig_keeps_plates_and_nothing_of_one_load() -> None:
    rig = keep_rig(typed_job(), "Gray trailer")
    assert rig.haul.trailer_gvwr == 14_000
    assert rig.haul.shop.fork_capacity == 5000
    assert (rig.haul.tongue_weight, rig.haul.rack_coils, rig.haul.shop.coil_center) == (None,) * 3
    job = with_rig(new_job("Shed"), rig)
    assert ANSWERS[HaulKey.TRAILER_GVWR].standing(job) is Standing.SURE
    assert ANSWERS[HaulKey.TOW_GVWR].standing(job) is Standing.GUESS
    # How the coil lies is habit and no plate: kept, and a guess on every other job.
    at_face = keep_rig(set_answers(typed_job(), {
        HaulKey.SHOP_AT_FACE: YesNo.YES, HaulKey.SHOP_COIL_CENTER: None}), "Gray trailer")
    assert HaulKey.SHOP_AT_FACE in at_face.sure
    assert ANSWERS[HaulKey.SHOP_AT_FACE].standing(with_rig(job, at_face)) is Standing.GUESS
    assert rig_is_given(job)
    assert not rig_is_given(Job())


def test_gear_the_rig_has_not_leaves_that_of_the_job() -> None:
    job = give(Job(), HaulKey.SITE_BY, LiftBy.OTHER)
    assert with_rig(job, keep_rig(typed_job(), "Gray trailer")).haul.site.by is LiftBy.OTHER


def test_a_new_job_starts_from_the_shop_and_keeps_its_own_copy() -> None:
    job = start(new_job("Shed"), shop())
    assert (job.order.buyer, job.order.contact, job.order.hours) == (
        "Gable & Seam (invented)", "A. Field", "7 to 3")
    assert job.machine.name == "Old blue"
    assert job.haul.trailer_gvwr == 14_000
    assert read_model(to_text(job), Job, "job") == job
    two = dataclasses.replace(shop(), machines=(*shop().machines, KeptMachine(name="New red")))
    assert start(new_job("Shed"), two).machine.name == ""  # two to choose from: none is chosen


def test_sharing_adds_what_is_new_and_keeps_mine_where_both_have_a_name(tmp_path: Path) -> None:
    theirs = SharedShop(
        shop=dataclasses.replace(shop(), next_order=99), stock=Stock(coils=(coil("A-1", 100),)))
    path = tmp_path / "shared.json"
    path.write_text(to_text(theirs), "utf-8")
    assert read_shared(str(path)) == theirs
    mine = Shop(buyer=Buyer(company="Mine"), rigs=(Rig(name="gray trailer"),), next_order=3)
    stock = Stock(coils=(coil("a-1", 50),))
    merged = merge(mine, stock, theirs)
    assert merged.shop.buyer.company == "Mine"
    assert merged.shop.buyer.phone == "555-0100"
    assert merged.shop.rigs == mine.rigs
    assert merged.shop.next_order == 3
    assert merged.stock == stock
    assert merged.kept == {
        "buyer": ("company",), "rigs": ("Gray trailer",), "coils on hand": ("A-1",)}
    assert merged.added["machines"] == ("Old blue",)
    taken = merge(mine, stock, theirs, replace_mine=True)
    assert taken.shop.rigs == theirs.shop.rigs
    assert taken.shop.buyer.company == "Gable & Seam (invented)"
    assert taken.stock == theirs.stock
    again = merge(taken.shop, taken.stock, theirs)
    assert (again.added, again.kept, again.replaced) == ({}, {}, {})
