"""Text somebody typed comes through Markdown, HTML and plain text as itself, never as markup."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coilwright.drawing.safe_text import one_line
from coilwright.sheets.markdown import (
    Fenced,
    Heading,
    Listing,
    Paragraph,
    Quote,
    Span,
    Style,
    Table,
    parse,
    plain,
)
from coilwright.sheets.render.html import to_html
from coilwright.sheets.render.text import to_text
from coilwright.sheets.writing import bullets, heading, numbered, paragraph, quote, safe, table
from tests.sheets.pages import Page

NASTY = [
    "a|b", "|", "`x`", "```", "<script>alert(1)</script>", "&amp;", "&lt;b&gt;", "**bold**",
    "*x*", "_x_", "# not a heading", "- not a list", "1. not a list", "1) x", "> not a quote",
    "[x](http://example.org)", "![x](y)", "\\", "\\|", "a\\", "~~x~~", "a\nb", "a\r\n- b",
    "</td></table>", "'\"", "\x1b[31mred", "\u202egnidaer", "---", "===", ": x", "$x$", "a  b",
    "| --- |", "<!--", "]]>", "\x00", "x" * 200, "🙂 é 屋根",
]  # fmt: skip
TYPED = st.one_of(
    st.text(max_size=60),
    st.sampled_from(NASTY),
    st.text(alphabet="\\`*_{}[]<>#|~&!$-+=:.)1 \n", max_size=30),
)


@given(TYPED)
def test_typed_text_is_a_paragraph_with_just_that_text(typed: str) -> None:
    blocks = parse(paragraph(f"Job: {safe(typed)}"))
    assert [type(block) for block in blocks] == [Paragraph]
    assert blocks[0].spans == (Span(Style.PLAIN, f"Job: {one_line(typed)}".strip()),)


@given(TYPED)
def test_typed_text_may_begin_a_line(typed: str) -> None:
    blocks = parse(paragraph(safe(typed)))
    if one_line(typed).strip():
        assert [type(block) for block in blocks] == [Paragraph]
        assert plain(blocks[0].spans) == one_line(typed)


@given(TYPED, TYPED)
def test_typed_text_in_a_table_makes_no_cells(one: str, two: str) -> None:
    blocks = parse(table(("a", "b"), [(safe(one), safe(two)), ("x", "y")], right=(1,)))
    assert len(blocks) == 1
    made = blocks[0]
    assert isinstance(made, Table)
    assert made.right == {1}
    rows = [tuple(plain(cell) for cell in row) for row in made.rows]
    assert rows == [(one_line(one), one_line(two)), ("x", "y")]


@given(TYPED, TYPED)
def test_typed_text_in_lists_headings_and_quotes(one: str, two: str) -> None:
    text = "\n".join((
        heading(2, f"H {safe(one)}"), bullets([f"B {safe(one)}", f"B {safe(two)}"]),
        numbered([f"N {safe(one)}", f"N {safe(two)}"]), quote(paragraph(f"Q {safe(two)}")),
    ))  # fmt: skip
    made, dots, counted, apart = parse(text)
    assert isinstance(made, Heading)
    assert plain(made.spans).rstrip() == f"H {one_line(one)}".rstrip()
    assert isinstance(dots, Listing)
    assert isinstance(counted, Listing)
    assert (dots.numbered, counted.numbered) == (False, True)
    for listing, mark in ((dots, "B"), (counted, "N")):
        said = [plain(item).rstrip() for item in listing.items]
        assert said == [f"{mark} {one_line(t)}".rstrip() for t in (one, two)]
    assert isinstance(apart, Quote)
    assert [type(block) for block in apart.blocks] == [Paragraph]


@given(st.lists(TYPED, min_size=1, max_size=4))
def test_html_has_no_element_but_ours(typed: list[str]) -> None:
    text = table(("a", "b"), [(safe(t), "x") for t in typed])
    page = Page(to_html(typed[0], text, lambda _: ""))
    assert page.tags <= {
        "html", "head", "meta", "title", "style", "body", "table", "thead", "tbody", "tr", "th",
        "td", "wbr",
    }  # fmt: skip
    assert page.attributes <= {"lang", "charset", "name", "content", "class"}
    assert page.cells[2::2] == [one_line(t) for t in typed]


@given(st.lists(TYPED, min_size=1, max_size=4), st.integers(20, 100))
def test_plain_text_stays_in_its_width_and_loses_no_word(typed: list[str], width: int) -> None:
    text = to_text(table(("name", "text"), [("x", safe(t)) for t in typed]), width)
    assert all(len(line) <= width for line in text.splitlines())
    kept = "".join(text.split())
    for t in typed:
        first = one_line(t).split(" ")[0]
        if len(first) < 8:
            assert first in kept


@pytest.mark.parametrize(
    ("text", "spans"),
    [
        ("a **b** c", [("plain", "a "), ("strong", "b"), ("plain", " c")]),
        ("*b* c", [("emphasis", "b"), ("plain", " c")]),
        ("`~` marks", [("code", "~"), ("plain", " marks")]),
        (r"\*b\*", [("plain", "*b*")]),
        (r"**a\*b**", [("strong", "a*b")]),
        ("a * b", [("plain", "a * b")]),
    ],
)
def test_runs_of_text(text: str, spans: list[tuple[str, str]]) -> None:
    (block,) = parse(text)
    assert isinstance(block, Paragraph)
    assert [(span.style.value, span.text) for span in block.spans] == spans


def test_fenced_text_stands_as_it_is_and_gives_way_to_its_picture() -> None:
    text = "```drawing plane.1\n<b> │ *x*\n```\n"
    assert parse(text) == (Fenced("drawing plane.1", ("<b> │ *x*",)),)
    assert "<pre>&lt;b&gt; │ *x*</pre>" in to_html("t", text, lambda _: "")
    shown = to_html("t", text, lambda name: f"<svg><title>{name}</title></svg>")
    assert "<figure><svg><title>plane.1</title></svg></figure>" in shown
    assert "<pre>" not in shown
