"""Every block in every form: text comes through as itself, never as markup, formula or control."""

from __future__ import annotations

import csv
import io
import re
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.drawing.safe_text import escape_controls, one_line
from coilwright.sheets.blocks import (
    Annex,
    Banner,
    Block,
    Drawing,
    Kept,
    Quote,
    Rows,
    Run,
    Sheet,
    Signature,
    Style,
    Text,
    Tick,
    Ticks,
    bullets,
    emphasis,
    facts,
    heading,
    joined,
    line,
    marked,
    numbered,
    paragraph,
    plain,
    room,
    stacked,
    strong,
    table,
    ticks,
    trimmed,
)
from coilwright.sheets.render.csv import guarded, to_csv
from coilwright.sheets.render.html import to_html
from coilwright.sheets.render.markdown import to_markdown
from coilwright.sheets.render.text import to_text
from tests.sheets.pages import READER, Page

NASTY = [
    "a|b", "|", "`x`", "```", "<script>alert(1)</script>", "&amp;", "&lt;b&gt;", "**bold**",
    "*x*", "_x_", "# not a heading", "- not a list", "1. not a list", "1) x", "> not a quote",
    "[x](http://example.org)", "![x](y)", "\\", "\\|", "a\\", "~~x~~", "a\nb", "a\r\n- b",
    "</td></table>", "'\"", "\x1b[31mred", "\u202egnidaer", "---", "===", ": x", "$x$", "a  b",
    "| --- |", "<!--", "]]>", "\x00", "x" * 200, "🙂 é 屋根", " lead", "trail ", "\x9b31m", "\x85",
    "#", "x #", "    code", "\u00a0- x", "+", "*", "=", "http://example.org", "~", "a~b~c",
]  # fmt: skip
TYPED = st.one_of(
    st.text(max_size=60),
    st.sampled_from(NASTY),
    st.text(alphabet="\\`*_{}[]<>#|~&!$-+=:.)1 \n", max_size=30),
)
CONTROLS = "".join(map(chr, [*range(0x20), *range(0x7F, 0xA0), 0x61C, 0x200E, 0x200F,
                             *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0xFEFF]))
"""C0, DEL, C1, and what turns the reading direction (Unicode Standard Annex 9)."""


def drawn(text: str) -> Drawing:
    return Drawing("plane.1", 40, lambda room: [text[:room], "└┘"], lambda: "")


def every_block(one: str, two: str) -> tuple[Block, ...]:
    """A block of each kind, with these texts wherever a text may stand; two is never empty."""
    return (
        heading(2, one), heading(3, "H ", two), paragraph(one),
        paragraph("P ", strong(two), " and ", emphasis(two), " end ", room(9)),
        facts(two, [(one, two), ("value", marked("~", one)), ("b", marked("~", "-5 °F"))]),
        table(("a", two), [(one, two), ("x", strong("y"))], right=(1,), keep=True),
        bullets([one, line("B ", two)]), numbered([one, line("N ", two)]),
        ticks([one, two]),
        Ticks((Tick(line(one), ticked=True), Tick(line(two))), in_line=True, label="Seen:"),
        Ticks((Tick(line(two)), Tick(line("z"))), in_line=True),
        Signature(("Ordered by", two), ("name", "date")),
        Quote((paragraph(one), bullets([two, "x"]))),
        Banner((paragraph(strong("DRAFT"), " ", two),), draft=True),
        Kept((heading(2, "K ", one), table(("k", "w"), [(two, "")], write=(1,)))),
        Annex(line("Annex ", two), (paragraph(one), table(("t",), [(two,)]))),
    )  # fmt: skip


def words(text: str) -> str:
    return " ".join(text.split())


def test_a_block_of_each_kind_is_looked_at() -> None:
    kinds = {type(block) for block in every_block("a", "b")} | {Drawing}
    assert kinds == set(get_args(Block))


@given(TYPED, TYPED)
def test_markdown_read_by_others_says_what_html_says(one: str, two: str) -> None:
    """Read as CommonMark with tables, by a library: the same words in the same elements."""
    sheet = Sheet(f"T {one}", every_block(one, f"k{two}"))
    ours = Page(to_html(sheet))
    read = Page(READER.render(to_markdown(sheet)))
    title, _, body = ours.text.partition(f"T {one_line(one)}".strip())
    assert not title.strip()
    assert "".join(body.split()) == "".join(read.text.split())
    assert read.tags <= {
        "h1", "h2", "h3", "p", "table", "thead", "tbody", "tr", "th", "td", "ul", "ol", "li",
        "blockquote", "strong", "em",
    }  # fmt: skip
    assert [words(cell) for cell in ours.cells] == [words(cell) for cell in read.cells]


@given(TYPED)
def test_typed_text_alone_is_a_paragraph_with_just_that_text(typed: str) -> None:
    read = READER.render(to_markdown(Sheet("t", (paragraph(typed),))))
    page = Page(read)
    assert page.tags <= {"h1", "p"}
    assert words(page.text) == words(f"t {one_line(typed)}")


@given(TYPED, TYPED)
def test_html_has_no_element_but_ours(one: str, two: str) -> None:
    html = to_html(Sheet(one, (*every_block(one, f"k{two}"), drawn(two))))
    page = Page(html)
    assert page.tags <= {
        "html", "head", "meta", "title", "style", "body", "h1", "h2", "h3", "p", "table", "thead",
        "tbody", "tr", "th", "td", "ul", "ol", "li", "blockquote", "section", "strong", "em",
        "span", "pre", "wbr",
    }  # fmt: skip
    assert page.attributes <= {"lang", "charset", "name", "content", "class"}


@given(TYPED, TYPED, st.integers(20, 100))
def test_plain_text_stays_in_its_width_and_loses_no_word(one: str, two: str, width: int) -> None:
    text = to_text(Sheet(one, every_block(one, f"k{two}")), width)
    assert all(len(row) <= width for row in text.splitlines())
    kept = "".join(text.split())
    for typed in (one, f"k{two}"):
        first = one_line(typed).split(" ")[0]
        if len(first) < 6:
            assert first in kept


@pytest.mark.parametrize("form", ["html", "md", "text", "csv"])
def test_no_control_and_no_turning_sign_leaves_in_any_form(form: str) -> None:
    hostile = "".join(f"a{sign}" for sign in CONTROLS)
    sheet = Sheet(hostile, (*every_block(hostile, f"k{hostile}"), drawn(hostile)))
    made = {
        "html": lambda: to_html(sheet),
        "md": lambda: to_markdown(sheet),
        "text": lambda: to_text(sheet, 70),
        "csv": lambda: to_csv(Rows((hostile,), ((hostile,),))),
    }[form]()
    assert set(made) & set(CONTROLS) <= {"\n"}
    assert "�" in made


@given(st.text())
def test_what_is_let_through_is_unchanged(text: str) -> None:
    shown = escape_controls(text)
    assert len(shown) == len(text)
    assert all(a == b or b == "�" for a, b in zip(text, shown, strict=True))
    assert not set(shown) & set(CONTROLS)


class TestRuns:
    @pytest.mark.parametrize(("text", "written"), [
        (line("a ", strong("b"), " c"), "a **b** c"),
        (line(emphasis("b"), " c"), "*b* c"),
        (line(Run("~", Style.CODE), " marks"), "`~` marks"),
        (line("*b*"), r"\*b\*"),
        (line(strong("a*b")), r"**a\*b**"),
        (line(strong(" b "), "c"), "**b**c"),
        (marked("~", "21 in"), "~ 21 in"),
        (marked("", "21 in"), "21 in"),
        (marked("~", "-5 °F"), r"~ \-5 °F"),
        (line("x: ", "y"), "x: y"),
    ])
    def test_in_markdown(self, text: Text, written: str) -> None:
        assert to_markdown(Sheet("t", (paragraph(text),))) == f"# t\n\n{written}\n"

    def test_parts_become_one_line(self) -> None:
        assert plain(line("a\n b", "", strong(" c"))) == "a b c"
        assert plain(joined(["a", strong("b"), "c"], "; ")) == "a; b; c"
        assert joined([]) == ()
        assert trimmed(line("  ", " a ", strong(" "))) == line("a")

    def test_empty_blocks_fall_out(self) -> None:
        held = [paragraph("x")]
        assert stacked(bullets([]), paragraph(""), (), held, ticks([])) == tuple(held)


class TestColumns:
    """A table in characters: a length that is broken over two lines is read as two lengths."""

    LENGTHS = ("~ 26 ft 11 1/4 in", "~ 23 ft 7 1/4 in", "~ 1,039 ft 3 in")
    RUN = table(
        ("✓", "panels", "length", "short side", "ends", "numbers", "left on it", "made", "scrap"),
        [("☐", "2", *LENGTHS[:2], "upper 50.2°", "Side 2: 16 rising, 36 falling", LENGTHS[2], "",
          "")] * 3, right=(1, 2, 3, 6), write=(7, 8))

    @pytest.mark.parametrize("width", [72, 80, 100, 120])
    def test_a_value_stays_whole(self, width: int) -> None:
        rows = to_text(Sheet("t", (self.RUN,)), width).splitlines()
        assert max(map(len, rows)) <= width
        assert [sum(one in row for row in rows) for one in self.LENGTHS] == [3, 3, 3]

    def test_what_has_no_room_stands_below_its_row(self) -> None:
        rows = to_text(Sheet("t", (self.RUN,)), 80).splitlines()
        assert "numbers: Side 2: 16 rising, 36 falling; made ________; scrap ________" in rows[-1]
        assert "made" not in rows[3]
        wide = to_text(Sheet("t", (self.RUN,)), 140).splitlines()
        assert len(wide) == 3 + 2 + 3
        assert "made" in wide[3]

    def test_thousands_stay_together_as_metric_has_them(self) -> None:
        rows = to_text(Sheet("t", (paragraph("x " * 4, "12\u202f954 kg"),)), 12).splitlines()
        assert rows[-1] == "12\u202f954 kg"


class TestDrawings:
    def test_the_picture_stands_in_for_the_characters_on_a_page(self) -> None:
        own = Drawing("coil", 40, lambda _: ["<b> │ *x*"], lambda: "<svg><title>c</title></svg>")
        html = to_html(Sheet("t", (own,)))
        assert "<figure><svg><title>c</title></svg></figure>" in html
        assert "<pre>" not in html
        assert "<pre>&lt;b&gt; │ *x*\n└┘</pre>" in to_html(Sheet("t", (drawn("<b> │ *x*"),)))

    def test_a_narrower_picture_takes_its_share_of_the_page(self) -> None:
        own = Drawing("coil", 40, lambda _: [], lambda: "<svg/>", 0.5)
        assert '<figure style="width:50%"><svg/></figure>' in to_html(Sheet("t", (own,)))

    def test_characters_are_fenced_and_no_wider_than_the_page(self) -> None:
        wide = drawn("x" * 60)
        made = to_markdown(Sheet("t", (wide,)))
        assert made == f"# t\n\n```drawing plane.1\n{'x' * 40}\n└┘\n```\n"
        assert "x" * 40 in to_text(Sheet("t", (wide,)), 80)
        narrow = to_text(Sheet("t", (wide,)), 30)
        assert "x" * 30 in narrow
        assert "x" * 31 not in narrow


class TestSpreadsheets:
    @pytest.mark.parametrize("text", [
        "=1+1", "+1", "-1", "@SUM(A1)", "＝1+1", "＋1", "－1", "＠x", "﹦1", "  =1", "\u00a0=1",
        "\u3000＝1", "\t=1", "\r=1", "\n-1", "\u200b=1", "\ufeff=1", "\u202e=1", "\x1b=1", "\x85+1",
        "\tx", "\rx",
    ])  # fmt: skip
    def test_a_formula_is_text(self, text: str) -> None:
        made = guarded(text)
        assert made.startswith("'")
        assert made[1:] == one_line(text)
        assert next(csv.reader(io.StringIO(to_csv(Rows(("h",), ((text,),))).split("\n")[1]))) == [
            made
        ]

    @pytest.mark.parametrize("text", ["Coil 1", "", "3 - 2", "a=b", "'quoted'", "½", "−5 °F", "#1"])
    def test_other_text_stays(self, text: str) -> None:
        assert guarded(text) == text

    def test_numbers_stay_numbers(self) -> None:
        assert to_csv(Rows(("a", "b", "c"), ((1, -2.5, 3.14159), (0, 10.0, "x,y")))) == (
            'a,b,c\n1,-2.5,3.142\n0,10,"x,y"\n'
        )

    @given(st.text())
    def test_no_cell_begins_a_formula(self, text: str) -> None:
        row = next(csv.reader(io.StringIO(to_csv(Rows((text,), ())))), [""])
        assert "".join(row).lstrip()[:1] not in set("=+-@＝＋－＠")


def test_the_foot_of_a_page_names_the_sheet_and_no_title_ends_its_style() -> None:
    """As in a style: a sign of a string may be written as its number with a blank behind it."""
    title = "Order 7\"; } </style><script>é, a\\b"
    html = to_html(Sheet(title, ()))
    (foot,) = re.findall(r'@bottom-left \{ content: "([^"]*)";', html)
    read = re.sub(r"\\([0-9a-f]{6}) ", lambda found: chr(int(found[1], 16)), foot)
    assert read == title
    assert html.count("</style>") == 1
    assert "<script" not in html


def test_a_list_that_goes_on_to_another_page_says_there_what_it_is() -> None:
    one = table(("what", "made"), [("a", "")], write=(1,), title="Load 3: Coil 3 <b>")
    html = to_html(Sheet("t", (one,)))
    head = html[html.index("<thead>"):html.index("</thead>")]
    assert '<tr><th colspan="2">Load 3: Coil 3 &lt;b&gt;</th></tr>' in head
