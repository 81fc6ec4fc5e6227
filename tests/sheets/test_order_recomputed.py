"""Every number of the order, worked out again from the summary's JSON by arithmetic of its own.

Nothing of the program's arithmetic is used here: no equation, no rounding, no way of writing
numbers. The sheet is read as a supplier reads it, as text; the JSON gives answers, cuts and
patterns. What one paper says, the other must give.
"""

from __future__ import annotations

import csv
import io
import json
import math
import re
from collections import Counter
from collections.abc import Callable
from typing import Any

import pytest

from coilwright.job.job import Job
from coilwright.plan import plan
from coilwright.sheets import render
from coilwright.sheets.data.summary import summary_json
from coilwright.store import to_text
from tests.sheets.pages import read_tables
from tests.sheets.trial_jobs import trial_jobs

MM, KG = 1 / 25.4, 1 / 0.45359237
JOBS = pytest.mark.parametrize("name", list(trial_jobs()))
_NUMBER = r"(\d[\d,]*(?:\.\d+)?)"
_FRACTION = re.compile(r"(?:(\d+) )?(\d+)/(\d+) in")


def inches(text: str) -> float:
    """A length as the sheet writes it [in]: `1,335 ft 8 in`, `20 5/8 in`, `407.10 m`, `812 mm`."""
    total, rest = 0.0, text.replace(",", "")
    if found := re.search(r"([\d.]+) ft\b", rest):
        total += 12 * float(found[1])
        rest = rest[found.end():]
    if found := _FRACTION.search(rest):
        total += float(found[1] or 0) + int(found[2]) / int(found[3])
    elif found := re.search(r"([\d.]+) (in|mm|m)\b", rest):
        total += float(found[1]) * {"in": 1.0, "mm": MM, "m": 1000 * MM}[found[2]]
    elif not total:
        raise AssertionError(f"no length: {text!r}")
    return total


def pounds(text: str) -> float:
    """A weight as the sheet writes it [lb]."""
    found = re.search(rf"{_NUMBER} (lb|kg)\b", text)
    assert found, text
    return float(found[1].replace(",", "")) * (1.0 if found[2] == "lb" else KG)


class Paper:
    """One job's order as a supplier reads it, and the JSON and the job file beside it."""

    def __init__(self, job: Job) -> None:
        found = plan(job)
        text = render("order", found, "md")
        self.tables = read_tables(text)
        self.text = " ".join(text.replace("\\", "").split())
        self.json: dict[str, Any] = json.loads(summary_json(found))
        self.answers: dict[str, Any] = json.loads(to_text(job))
        self.us = self.json["units"] == "US"
        self.said = {row[0]: row[1] for table in self.tables if len(table.header) == 2
                     for row in table.rows}

    def value(self, key: str) -> float:
        return float(self.json["figures"][key]["value"])

    def maybe(self, key: str) -> float | None:
        figure = self.json["figures"].get(key)
        return None if figure is None else float(figure["value"])

    def given(self, section: str, key: str) -> Any:
        return self.answers.get(section, {}).get(key)

    def length_given(self, section: str, key: str) -> float | None:
        """A length of the job file [in], where it is written with its unit."""
        said = self.given(section, key)
        return None if said is None else inches(said)

    def table(self, first: str) -> list[list[str]]:
        return next((t.rows for t in self.tables if t.header[0] == first), [])

    # ------------------------------------------------ the coils, by hand

    @property
    def strip(self) -> float:
        return self.value("panel.coverage") + self.value("panel.take_up")

    def step(self, kind: str) -> float:
        """What a number of that kind is rounded to on an order [in, lb]."""
        return {"length": 1.0 if self.us else 10 * MM, "across": 1 / 8 if self.us else 5 * MM,
                "mass": 1.0 if self.us else KG}[kind]

    @property
    def read_to(self) -> float:
        """How closely a small size is printed [in]: in metric to 0.1 mm."""
        return 1e-3 if self.us else 0.05 * MM + 1e-9

    def up(self, value: float, kind: str) -> float:
        step = self.step(kind)
        return math.ceil(value / step - 1e-6) * step

    def down(self, value: float, kind: str) -> float:
        step = self.step(kind)
        return math.floor(value / step + 1e-6) * step

    def near(self, value: float, kind: str) -> float:
        step = self.step(kind)
        return math.floor(value / step + 0.5) * step

    def wanted(self, one: dict[str, Any]) -> float:
        """Length that the cuts of a coil want, at its shortest [in]."""
        cut = sum(c["count"] * c["length"]["value"] for c in one["cuts"])
        lost = self.value("machine.thread_up") + self.value("machine.tail")
        return (cut * (1 + self.value("coils.spare")) + lost) / (1 - self.value("coils.tolerance"))

    def ordered(self, one: dict[str, Any]) -> float:
        """Length ordered [in]: from the longest down, a coil at most 1 % under the one before it
        is ordered as long, while that takes no more than 0.5 % of all of them."""
        wanted = sorted(map(self.wanted, self.json["coils"]), reverse=True)
        spent, at, own = 0.0, wanted[0], self.wanted(one)
        for length in wanted:
            if at - length <= 0.01 * at and spent + at - length <= 0.005 * sum(wanted):
                spent += at - length
            else:
                at = length
            if abs(length - own) < 1e-6:
                break
        return at

    def coil(self, one: dict[str, Any]) -> tuple[float, ...]:
        """Length, weight, least length, greatest weight and diameter of a coil [in, lb]."""
        under, over = self.value("coils.tolerance"), self.maybe("coils.tolerance_over")
        over = under if over is None else over
        length = self.ordered(one)
        by_inch = self.value("metal.density") * self.value("metal.thickness") * self.strip
        rack = self.maybe("machine.rack_load")
        floor = self.given("coils", "coil_on") == "floor decoiler"
        carried = [self.value("machine.decoiler_load" if floor else "machine.arbor_load"),
                   rack / self.value("machine.arbors") if rack and not floor else None,
                   self.maybe("coils.site_lift")]
        most = min(length * by_inch * (1 + over), *(c for c in carried if c is not None))
        return (self.up(length, "length"), self.near(length * by_inch, "mass"),
                self.up(length * (1 - under), "length"), self.down(most, "mass"),
                self.down(self.value("machine.decoiler_diameter" if floor
                                     else "machine.rack_diameter"), "across"))


@pytest.fixture(scope="module")
def papers() -> dict[str, Paper]:
    return {name: Paper(job) for name, job in trial_jobs().items()}


READ: tuple[Callable[[str], float], ...] = (inches, pounds, inches, pounds, inches)


@JOBS
def test_the_coils(name: str, papers: dict[str, Paper]) -> None:
    paper = papers[name]
    made = Counter(tuple(round(n, 3) for n in paper.coil(one)) for one in paper.json["coils"])
    said: Counter[tuple[float, ...]] = Counter()
    for _numbers, count, *cells in paper.table("coil"):
        said[tuple(round(read(c), 3) for read, c in zip(READ, cells, strict=True))] += int(count)
    assert said
    assert len(said) == len(made)
    for ours, theirs in zip(sorted(said), sorted(made), strict=True):
        assert ours == pytest.approx(theirs, abs=0.01)
        assert said[ours] == made[theirs]


@JOBS
def test_the_total_is_what_adding_the_rows_gives(name: str, papers: dict[str, Paper]) -> None:
    paper = papers[name]
    rows = paper.table("coil")
    said = re.search(r"Total of these coils:\*\* (\d+) coils?, (.+?(?: ft(?: \d+ in)?| m)), "
                     r"(.+? (?:lb|kg))\.", paper.text)
    assert said
    assert int(said[1]) == sum(int(row[1]) for row in rows) == len(paper.json["coils"])
    assert inches(said[2]) == pytest.approx(
        sum(int(row[1]) * inches(row[2]) for row in rows), abs=0.02)
    assert pounds(said[3]) == pytest.approx(
        sum(int(row[1]) * pounds(row[3]) for row in rows), abs=0.01)


@JOBS
def test_the_coils_hold_every_panel_of_the_roof(name: str, papers: dict[str, Paper]) -> None:
    paper = papers[name]
    cut: Counter[tuple[str, float]] = Counter()
    for coil in (*paper.json["coils"], *paper.json["on_hand"]):
        for one in coil["cuts"]:
            cut[one["plane"], round(one["length"]["value"], 3)] += one["count"]
    laid: Counter[tuple[str, float]] = Counter()
    for plane in paper.json["planes"]:
        for group in plane["panels"]:
            laid[plane["key"], round(group["length"]["value"], 3)] += group["count"]
    assert laid
    assert {key: n for key, n in cut.items() if key in laid} == laid


@JOBS
def test_what_holds_for_every_coil(name: str, papers: dict[str, Paper]) -> None:
    paper = papers[name]
    said = paper.said
    width, _, off = said["Slit width"].partition(" ± ")
    assert inches(width) == pytest.approx(paper.strip, abs=1e-3)
    agreed = paper.length_given("coils", "width_tolerance")
    if agreed is None:
        assert "; tolerance: " in said["Slit width"]
    else:
        assert inches(off) == pytest.approx(agreed, abs=paper.read_to)
    bow = paper.length_given("coils", "camber")
    if bow is None:
        assert re.fullmatch(r"(_+|your standard; .+) \((?:in 8 ft|in 2 m)\)", said["Camber"])
    else:
        camber, _, over = said["Camber"].partition(" in ") if not paper.us else (
            said["Camber"].replace(" in in ", " in|").partition("|"))
        assert inches(camber) == pytest.approx(bow, abs=paper.read_to)
        # 8 ft are 2.438 m; paper says 2.44 m.
        beside = paper.length_given("coils", "camber_over") or 96
        assert inches(over) == pytest.approx(beside, abs=1e-9 if paper.us else 0.1)
    assert inches(said["Inside diameter, ID"]) == paper.value("coils.inside_diameter")
    under, over = (float(n) / 100 for n in re.findall(
        r"([\d.]+) %", said["Weight tolerance, each coil"]))
    assert under == pytest.approx(paper.value("coils.tolerance"))
    assert over == pytest.approx(paper.maybe("coils.tolerance_over") or under)


@JOBS
def test_how_thick_the_metal_may_come(name: str, papers: dict[str, Paper]) -> None:
    """A coil of the least length is at its limit of weight or diameter at some thickness: where
    the order lets metal come thicker than that, or does not say, it says what happens then."""
    paper = papers[name]
    thick, inside = paper.value("metal.thickness"), paper.value("coils.inside_diameter")
    by_inch = paper.value("metal.density") * thick * paper.strip
    under, fits = paper.value("coils.tolerance"), math.inf
    for one in paper.json["coils"]:
        _, _, _, most, across = paper.coil(one)
        # What lifts it at the site lifts skid and packing too (common practice, no source).
        most = min(most, (paper.maybe("coils.site_lift") or math.inf) - (
            100 if paper.us else 45 / 0.45359237))
        least = paper.ordered(one) * (1 - under)
        assert paper.ordered(one) == pytest.approx(one["length"]["value"])
        assert paper.wanted(one) <= one["length"]["value"] * (1 + 1e-9)
        wound = math.pi * (across**2 - inside**2) / 4 / (1 + paper.value("coils.wrap_allowance"))
        fits = min(fits, thick * most / (by_inch * least), wound / least)
    off = paper.length_given("metal", "thickness_tolerance")
    said = re.search(r"Metal over ([\d.]+ (?:in|mm)) would reach "
                     r"(?:max weight|max OD|.+? gross) before min", paper.text)
    # Limits are printed to the pound and to 1/8 in, and so the thickness comes a little less.
    fine = 2e-4
    if off is not None and thick + off < fits - fine:
        assert said is None
    else:
        assert said is not None
        assert inches(said[1]) == pytest.approx(fits, abs=fine)


@JOBS
def test_the_thickness(name: str, papers: dict[str, Paper]) -> None:
    paper = papers[name]
    numbers = re.findall(r"([\d.]+ (?:in|mm)\b)", paper.said["Thickness"])
    wanted = [paper.value("metal.thickness")]
    if (off := paper.length_given("metal", "thickness_tolerance")) is not None:
        wanted.append(off)
    # In metric to a thousandth of a millimeter.
    fine = 1e-5 if paper.us else 0.0005 / 25.4 + 1e-9
    assert [inches(n) for n in numbers] == pytest.approx(wanted, abs=fine)
    meant = paper.given("metal", "thickness_is")
    assert meant in paper.said["Thickness"] if meant else (
        "Minimum or nominal, and tolerance" in paper.said)
    if (ounces := paper.said.get("Weight of the sheet")) is not None:
        ounces_said = f"{paper.given('metal', 'gauge')} oz per sq ft, nominal"
        assert ounces == f"{ounces_said}; the thickness governs"
        # 20 oz on a square foot, by density and thickness: pounds × 16, within the ounce.
        heavy = paper.value("metal.density") * paper.value("metal.thickness") * 144 * 16
        assert heavy == pytest.approx(float(ounces.split()[0]), abs=0.5)


@JOBS
def test_metal_for_trim(name: str, papers: dict[str, Paper]) -> None:
    """Sheets by the nests: rows of one width and length, so many from one sheet."""
    paper = papers[name]
    rows = paper.table("count")
    bought = [line for line in paper.json["buy"] if line["what"] != "coil"]
    assert len(rows) == len(bought)
    for (count, what, width, thick, length, each), line in zip(rows, bought, strict=True):
        assert what == line["what"]
        assert int(count) == line["count"]["value"]
        assert inches(width) == pytest.approx(line["width"]["value"])
        assert inches(thick) == pytest.approx(line["thickness"]["value"], abs=1e-4)
        long = paper.up(line["length"]["value"], "length")
        assert inches(length) == pytest.approx(long, abs=0.01)
        heavy = inches(width) * inches(thick) * line["length"]["value"] * paper.value(
            "metal.density")
        assert pounds(each) == pytest.approx(heavy, abs=0.7 if paper.us else 0.7 / KG)
    nests = [nest for nest in paper.json["trim"] if nest["made_from"] == "flat sheet"]
    sheets = 0
    for nest in nests:
        long = sum(p["times"] * p["length"]["value"] for p in nest["patterns"])
        assert nest["length"]["value"] == pytest.approx(long)
        sheet = paper.value("trim.sheet_length")
        # Rows are laid end to end in a sheet, none across a cut: first-fit, longest first.
        left: list[float] = []
        for pattern in sorted(nest["patterns"], key=lambda p: -p["length"]["value"]):
            for _ in range(pattern["times"]):
                need = pattern["length"]["value"]
                at = next((n for n, room in enumerate(left) if room >= need - 1e-6), None)
                if at is None:
                    left.append(sheet - need)
                else:
                    left[at] -= need
        sheets += len(left)
        for pattern in nest["patterns"]:
            across = sum(
                piece["count"] * flat_width_by_name(paper, piece["piece"])
                for piece in pattern["across"]
            )
            assert across + pattern["drop"]["value"] == pytest.approx(nest["width"]["value"])
    said = sum(int(row[0]) for row in rows if row[1] == "flat sheet for trim")
    assert said == sheets


def flat_width_by_name(paper: Paper, name: str) -> float:
    piece = next(p for p in paper.answers["trim"]["pieces"] if p["name"] == name)
    flat = next((piece[key] for key in ("flat_width", "flat_width") if piece.get(key)), None)
    parts = [flat] if flat else [*piece.get("legs", ()), *piece.get("hems", ())]
    return sum(inches(part) for part in parts)


@JOBS
def test_what_the_site_lifts_and_the_report_names(name: str, papers: dict[str, Paper]) -> None:
    paper = papers[name]
    lift = paper.maybe("coils.site_lift")
    if lift is None:
        assert "package" not in paper.said["Unloading, by us"]
    else:
        assert pounds(paper.said["Unloading, by us"]) == pytest.approx(paper.down(lift, "mass"))
    if (found := re.search(r"none thinner than ([\d.]+ in)", paper.text)) is not None:
        assert inches(found[1]) == paper.length_given("panel", "report_thinnest")


CHECKED = {"Slit width", "Camber", "Inside diameter, ID", "Weight tolerance, each coil",
           "Thickness",
           "Weight of the sheet", "Unloading, by us"}
WORDS = {"Standard", "Grade", "Alloy", "Type", "Temper", "Finish", "Color", "Color code",
         "Back coat", "Ship to", "Deliver by", "Buyer", "Receiving hours"}
"""Fields whose digits are names, designations and dates; all others with a digit are checked."""


@JOBS
def test_no_number_stands_on_it_that_is_not_worked_out_here(
    name: str, papers: dict[str, Paper]
) -> None:
    paper = papers[name]
    for label, value in paper.said.items():
        if re.search(r"\d", value):
            assert label in CHECKED | WORDS, label
    heads = {table.header[0] for table in paper.tables}
    assert heads <= {"order", "metal", "every coil", "every coil for panels", "delivery", "coil",
                     "count", "the supplier confirms, in writing", ""}
    listed = paper.text[paper.text.index("One production lot"):]
    listed = re.sub(r"report [\w-]+ \(invented\)|none thinner than [\d.]+ in", "", listed)
    assert not re.search(r"\d", listed)


@JOBS
def test_the_metal_in_words(name: str, papers: dict[str, Paper]) -> None:
    """What decides which coil is made: metal, coating, finish, color, which side, which lot."""
    paper = papers[name]
    given = paper.answers["metal"]
    assert given["metal"] in paper.said["Metal"]
    if given.get("coating"):
        assert f"coating {given['coating']}" in paper.said["Standard"]
    for key, label in (("finish", "Finish"), ("color", "Color"), ("painted_side", None)):
        if given.get(key):
            field = label or next(k for k in paper.said if k.startswith("Painted (prime) side"))
            assert paper.said[field] == given[key]
    bare = given["metal"] == "copper"
    assert ("Color" in paper.said) != bare
    lots = {line["lot"] for line in paper.json["buy"]}
    assert ("matched to that lot" in paper.text) == (len(lots) > 1)
    trim = any(line["what"] != "coil" for line in paper.json["buy"])
    assert ("for the trim metal" in paper.text) == trim


@JOBS
def test_the_rows_for_a_spreadsheet_say_what_the_page_says(
    name: str, papers: dict[str, Paper]
) -> None:
    paper = papers[name]
    rows = list(csv.DictReader(io.StringIO(render("order", plan(trial_jobs()[name]), "csv"))))
    coils = [row for row in rows if row["what"].startswith("coil ")]
    assert len(coils) == len(paper.json["coils"])
    inch, pound = ("in", "lb") if paper.us else ("mm", "kg")
    to_inch, to_pound = (1.0, 1.0) if paper.us else (MM, KG)
    for row, one in zip(coils, paper.json["coils"], strict=True):
        length, mass, least, most, across = paper.coil(one)
        assert paper.up(float(row[f"length each ({inch})"]) * to_inch, "length") == (
            pytest.approx(length, abs=0.01))
        assert float(row[f"weight each ({pound})"]) * to_pound == pytest.approx(mass, abs=1.2)
        assert float(row[f"min length ({inch})"]) * to_inch == pytest.approx(least, abs=1)
        assert float(row[f"max weight ({pound})"]) * to_pound == pytest.approx(most, abs=2.3)
        assert float(row[f"max OD ({inch})"]) * to_inch == pytest.approx(across, abs=0.13)
        assert float(row[f"thickness ({inch})"]) * to_inch == pytest.approx(
            paper.value("metal.thickness"), abs=1e-4)
    trim = [int(row["count"]) for row in rows if not row["what"].startswith("coil ")]
    assert trim == [int(row[0]) for row in paper.table("count")]


def test_the_reader_reads_what_a_supplier_reads() -> None:
    assert inches("1,335 ft 8 in") == 16028
    assert inches("20 5/8 in") == 20.625
    assert inches("1/16 in") == 1 / 16
    assert inches("12 ft") == 144
    assert inches("10 ft 1/2 in") == 120.5
    assert inches("407.10 m") == pytest.approx(16027.6, abs=0.1)
    assert pounds("2,250 lb") == 2250
    assert pounds("up to 680 kg; call") == pytest.approx(1499.1, abs=0.1)
    with pytest.raises(AssertionError, match="no length"):
        inches("state it")
