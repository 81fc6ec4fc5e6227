"""A sheet as one HTML page that prints well; pictures inside, nothing fetched."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from html import escape
from typing import assert_never

from coilwright.drawing.safe_text import escape_controls, one_line
from coilwright.sheets.blocks import (
    DRAFT,
    Annex,
    Banner,
    Block,
    Drawing,
    Facts,
    Heading,
    Kept,
    List,
    Paragraph,
    Quote,
    Run,
    Sheet,
    Signature,
    Style,
    Table,
    Text,
    Ticks,
    line,
)

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
.facts td:first-child { width: 38%; }
.signature td { height: 2.2em; }
.compact .facts, .compact .facts thead { display: block; }
.compact .facts tbody { display: grid; grid-template-columns: 1fr 1fr; }
.compact .facts tr { display: grid; grid-template-columns: 2fr 3fr; }
.compact .facts td:first-child { width: auto; }
.compact:not(.card) .facts tr:last-child:nth-child(odd) { grid-column: 1 / -1;
  grid-template-columns: 1fr 4fr; }
.compact .facts thead tr { display: block; }
.compact .facts thead th { display: block; }
.compact .facts thead th:last-child { display: none; }
.across { position: fixed; top: 42%; left: 0; right: 0; text-align: center; z-index: 1;
  font: bold 22vmin/1 sans-serif; letter-spacing: .1em; color: #000; opacity: .14;
  transform: rotate(-35deg); pointer-events: none; print-color-adjust: exact; }
.right { text-align: right; }
td.right { white-space: nowrap; }
td.write { min-width: 3.2em; height: 2.1em; }
td.wide { width: 36%; }
ul, ol { margin: .3em 0 .8em; padding-left: 1.4em; }
ol { padding-left: 2.2em; }
.ticks { list-style: none; padding-left: 0; }
.ticks li { padding-left: 1.4em; text-indent: -1.4em; }
.tick { display: inline-block; margin-right: 1em; }
blockquote { border: 2px solid #000; margin: 1em 0; padding: .5em .9em; }
blockquote > :first-child { margin-top: 0; }
blockquote > :last-child { margin-bottom: 0; }
figure { margin: .6em 0; }
figure svg { width: 100%; height: auto; }
pre { font: 9pt/1.15 monospace; overflow-x: auto; }
@page card { margin: 8mm 11mm 9mm; }
@page { margin: 12mm 15mm 14mm;
  @bottom-left { content: "TITLE"; font: 8pt sans-serif; }
  @bottom-right { content: "Page " counter(page) " of " counter(pages); font: 8pt sans-serif; }
}
@media print {
  body { max-width: none; margin: 0; padding: 0; font-size: 10pt; }
  thead { display: table-header-group; }
  tr, figure, blockquote, li, .keep { break-inside: avoid; }
  .page + .page { break-before: page; }
  h1, h2, h3 { break-after: avoid; }
  th { background: none; }
  .compact { font-size: 8.25pt; line-height: 1.2; }
  .compact h1, .compact table, .compact ul, .compact p { margin: 0 0 .5em; }
  .compact th, .compact td { padding: .1em .5em; }
  .compact .signature td { height: 1.8em; }
  .compact td.write.wide { height: 1.8em; }
  .compact .hand th, .compact .hand td { padding: .1em .25em; }
  .compact .hand td.write { height: 1.75em; min-width: 2.6em; }
  .compact .hand td.write:last-child { min-width: 6.2em; }
  .compact .hand th:last-child { width: 6.2em; }
  .hand tr:first-child, .keep:has(+ .hand) { break-after: avoid; }
  .hand tr:last-child, .hand + p, .hand + p + p { break-before: avoid; }
  .compact h2 { margin: .9em 0 .3em; }
  .compact .banner { margin: .4em 0 .7em; padding: .3em .6em; }
  .compact .ticks li { margin: .15em 0; }
  .card { page: card; font-size: 7.1pt; line-height: 1.08; padding: 0 1px; }
  .card h1 { font-size: 1.4em; margin: 0 0 .2em; }
  .card h2 { margin: .3em 0 .15em; }
  .card table, .card ul, .card ol, .card p { margin: 0 0 .25em; }
  .card blockquote { margin: 0 0 .4em; padding: .2em .6em; border-width: 1px; }
  .card th, .card td { padding: 0 .4em; }
  .card .facts tbody { grid-template-columns: 1fr 1fr 1fr; }
  .card .facts tr { grid-template-columns: 7fr 5fr; }
  .card ul, .card ol { columns: 2; column-gap: 2.2em; }
  .card .signature td { height: 1.8em; }
  .card .ticks li { margin: 0; }
  .card .banner { margin: 0 0 .4em; padding: .2em .6em; }
  .card td.write.wide { height: auto; width: auto; }
  .roomy { font-size: 7.75pt; line-height: 1.12; }
  .roomy .signature td { height: 2em; }
  .roomy td.write.wide { height: 2em; }
  .roomy .facts tr { grid-template-columns: 6fr 5fr; }
  .roomy .ticks li { margin: .2em 0; }
  .card td.write { min-width: 9em; }
  .roomy td:has(> .room) { height: 1.75em; vertical-align: bottom; }
}
"""
"""Letter and A4 alike: the page's own size is the printer's."""


def to_html(sheet: Sheet) -> str:
    """The sheet as a whole page: its style and pictures in it, no script, all text escaped."""
    draft = f'<p class="across">{DRAFT}</p>\n' if sheet.draft else ""
    names = " ".join(name for name, has in (
        ("compact", sheet.compact or sheet.card), ("card", sheet.card), ("roomy", sheet.roomy),
    ) if has)
    body_tag = f'<body class="{names}">' if names else "<body>"
    css = _CSS.replace("TITLE", _css_text(one_line(sheet.title)))
    body = _blocks((Heading(1, line(sheet.title)), *sheet.blocks))
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(one_line(sheet.title))}</title>\n<style>{css}</style>\n</head>\n"
        f"{body_tag}\n{draft}{body}\n</body>\n</html>\n"
    )


def _css_text(text: str) -> str:
    """A text inside the quotes of a style: all but letters, digits and blanks as their numbers."""
    return "".join(sign if sign.isascii() and (sign.isalnum() or sign == " ")
                   else f"\\{ord(sign):06x} " for sign in text)


def _blocks(blocks: Iterable[Block]) -> str:
    return "\n".join(map(_block, blocks))


def _block(block: Block) -> str:
    match block:
        case Heading():
            return f"<h{block.level}>{_inline(block.text)}</h{block.level}>"
        case Paragraph():
            return f"<p>{_inline(block.text)}</p>"
        case Facts():
            return _table((block.title, ()), block.rows, name="facts keep")
        case Table():
            return _table(block.header, block.rows, block.right, "keep" if block.keep else "",
                          block.write, block.title)
        case List():
            tag = "ol" if block.numbered else "ul"
            items = "\n".join(f"<li>{_inline(item)}</li>" for item in block.items)
            return f"<{tag}>\n{items}\n</{tag}>"
        case Ticks():
            return _ticks(block)
        case Signature():
            empty = ((),) * len(block.fields)
            return _table([line(name) for name in ("", *block.fields)],
                          [(line(who), *empty) for who in block.who], name="signature keep")
        case Drawing():
            return _drawing(block)
        case Quote():
            return f"<blockquote>\n{_blocks(block.blocks)}\n</blockquote>"
        case Banner():
            name = "banner draft" if block.draft else "banner"
            return f'<blockquote class="{name}">\n{_blocks(block.blocks)}\n</blockquote>'
        case Kept():
            name = "page" if block.page else "keep"
            return f'<section class="{name}">\n{_blocks(block.blocks)}\n</section>'
        case Annex():
            inner = _blocks((Heading(2, block.title), *block.blocks))
            return f'<section class="annex">\n{inner}\n</section>'
        case _:
            assert_never(block)


def _table(
    header: Sequence[Text], rows: Iterable[Sequence[Text]],
    right: frozenset[int] = frozenset(), name: str = "", write: frozenset[int] = frozenset(),
    title: Text = (),
) -> str:
    hand = "write wide" if len(write) == 1 else "write"

    def opened_cell(number: int, tag: str) -> str:
        kind = "right" if number in right else hand if number in write else ""
        return f'<{tag} class="{kind}">' if kind else f"<{tag}>"

    def row(cells: Sequence[Text], tag: str) -> str:
        made = "".join(
            f"{opened_cell(number, tag)}{_inline(cell)}</{tag}>"
            for number, cell in enumerate(cells)
        )
        return f"<tr>{made}</tr>"

    over = f'<tr><th colspan="{len(header)}">{_inline(title)}</th></tr>' if title else ""
    head = over + row(header, "th")
    body = "\n".join(row(cells, "td") for cells in rows)
    if len(write) > 1:
        name = f"{name} hand".lstrip()
    opened = f'<table class="{name}">' if name else "<table>"
    return f"{opened}\n<thead>{head}</thead>\n<tbody>\n{body}\n</tbody>\n</table>"


def _ticks(block: Ticks) -> str:
    items = [f"{item.box} {_inline(item.text)}" for item in block.items]
    if not block.in_line:
        listed = "\n".join(f"<li>{item}</li>" for item in items)
        return f'<ul class="ticks">\n{listed}\n</ul>'
    ends = ["" if not block.label else ";"] * len(items)
    if block.label and ends:
        ends[-1] = "."
    # A box and its words stay on one line.
    boxes = " ".join(f'<span class="tick">{item}{end}</span>'
                     for item, end in zip(items, ends, strict=True))
    label = f"{_inline(line(block.label))} " if block.label else ""
    return f"<p>{label}{boxes}</p>"


def _drawing(block: Drawing) -> str:
    if drawn := block.svg():
        style = "" if block.share >= 1 else f' style="width:{block.share:.0%}"'
        return f"<figure{style}>{drawn}</figure>"
    rows = "\n".join(map(escape_controls, block.lines(block.width)))
    return f"<pre>{escape(rows)}</pre>" if rows else ""


def _inline(text: Text) -> str:
    return "".join(map(_run, text))


def _run(run: Run) -> str:
    text = _LONG_WORD.sub(r"\1<wbr>", escape(run.text))
    match run.style:
        case Style.PLAIN:
            return text
        case Style.GUESS:
            # The mark never stands at the end of a line, away from its number.
            return f"{text.rstrip()}&nbsp;"
        case Style.STRONG:
            return f"<strong>{text}</strong>"
        case Style.EMPHASIS:
            return f"<em>{text}</em>"
        case Style.CODE:
            return f"<code>{text}</code>"
        case Style.ROOM:
            return f'<span class="room">{text}</span>'
        case _:
            assert_never(run.style)
