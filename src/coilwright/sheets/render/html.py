"""A sheet's Markdown as one HTML page that prints well; pictures inside, nothing fetched."""

from __future__ import annotations

import re
from collections.abc import Callable
from html import escape

from coilwright.sheets.markdown import (
    Block,
    Fenced,
    Heading,
    Listing,
    Paragraph,
    Quote,
    Span,
    Spans,
    Style,
    Table,
    parse,
)

_TAGS = {Style.STRONG: "strong", Style.EMPHASIS: "em", Style.CODE: "code"}

_LONG_WORD = re.compile(r"((?:&\w+;|&#\w+;|[^\s&]){30})(?=\S)")
"""Thirty signs without a blank: a page may break after them."""

_CSS = """
:root { color-scheme: light; }
body { font: 11pt/1.4 sans-serif; color: #000;
  background: #fff; max-width: 46rem; margin: 1.5rem auto; padding: 0 1rem; }
h1 { font-size: 1.5em; margin: 0 0 .6em; }
h2 { font-size: 1.15em; margin: 1.4em 0 .4em; border-bottom: 1px solid #000; }
h3 { font-size: 1em; margin: 1.1em 0 .3em; }
table { border-collapse: collapse; width: 100%; margin: .4em 0 .8em; }
th, td { border: 1px solid #777; padding: .2em .5em; text-align: left; vertical-align: top;
  overflow-wrap: break-word; }
th { background: #eee; }
.right { text-align: right; }
ul, ol { margin: .3em 0 .8em; padding-left: 1.4em; }
blockquote { border: 2px solid #000; margin: 1em 0; padding: .4em .9em; }
figure { margin: .6em 0; }
figure svg { width: 100%; height: auto; }
pre { font: 9pt/1.15 monospace; overflow-x: auto; }
@page { margin: 15mm; }
@media print {
  body { max-width: none; margin: 0; padding: 0; font-size: 10pt; }
  thead { display: table-header-group; }
  tr, figure, blockquote, li { break-inside: avoid; }
  h1, h2, h3 { break-after: avoid; }
  th { background: none; }
}
"""


def to_html(title: str, markdown: str, picture: Callable[[str], str]) -> str:
    """A whole page. picture: SVG for a drawing's name; where it gives none the characters stay.

    All text of the Markdown is escaped.
    """
    body = "\n".join(_block(block, picture) for block in parse(markdown))
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{_CSS}</style>\n</head>\n<body>\n"
        f"{body}\n</body>\n</html>\n"
    )


def _block(block: Block, picture: Callable[[str], str]) -> str:
    if isinstance(block, Heading):
        return f"<h{block.level}>{_inline(block.spans)}</h{block.level}>"
    if isinstance(block, Paragraph):
        return f"<p>{_inline(block.spans)}</p>"
    if isinstance(block, Listing):
        tag = "ol" if block.numbered else "ul"
        items = "\n".join(f"<li>{_inline(item)}</li>" for item in block.items)
        return f"<{tag}>\n{items}\n</{tag}>"
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Quote):
        inner = "\n".join(_block(one, picture) for one in block.blocks)
        return f"<blockquote>\n{inner}\n</blockquote>"
    return _fenced(block, picture)


def _table(block: Table) -> str:
    def row(cells: tuple[Spans, ...], tag: str) -> str:
        made = "".join(
            f'<{tag} class="right">{_inline(cell)}</{tag}>'
            if number in block.right
            else f"<{tag}>{_inline(cell)}</{tag}>"
            for number, cell in enumerate(cells)
        )
        return f"<tr>{made}</tr>"

    head = row(block.header, "th")
    body = "\n".join(row(cells, "td") for cells in block.rows)
    return f"<table>\n<thead>{head}</thead>\n<tbody>\n{body}\n</tbody>\n</table>"


def _fenced(block: Fenced, picture: Callable[[str], str]) -> str:
    kind, _, name = block.info.partition(" ")
    drawn = picture(name) if kind == "drawing" else ""
    if drawn:
        return f"<figure>{drawn}</figure>"
    return f"<pre>{escape(chr(10).join(block.lines))}</pre>"


def _inline(spans: Spans) -> str:
    return "".join(_span(span) for span in spans)


def _span(span: Span) -> str:
    tag = _TAGS.get(span.style)
    text = _LONG_WORD.sub(r"\1<wbr>", escape(span.text))
    return f"<{tag}>{text}</{tag}>" if tag else text
