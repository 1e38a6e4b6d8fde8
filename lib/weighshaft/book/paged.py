"""The book as one page for a browser, with everything that it needs within it."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from html import escape
from importlib.resources import files

from ..working import Working
from .blocks import Block, Book, Drawn, Formula, Grid, Judged, Shown, Ticks, Words
from .chapters import signed
from .checks import DEFERS
from .formulas import Untranslated, shortened, typeset
from .typed import Vectors, printable
from .vectors import Vector
from .widths import is_heading

_MANNERS = {"plain": "p", "small": "p", "heed": "p", "head": "h3"}


def html_of(book: Book, vectors: Vectors) -> str:
    """Return the book as one HTML file that fetches nothing.

    Parameters
    ----------
    vectors : every picture and drawing of the book.
    """
    style = files(__package__).joinpath("book.css").read_text(encoding="utf-8")
    lines = [
        "<!doctype html>", '<html lang="en">', "<head>", '<meta charset="utf-8">',
        '<meta name="viewport" content="width=device-width, initial-scale=1">',
        # nothing is fetched and nothing is run, whatever somebody wrote into a name
        '<meta http-equiv="Content-Security-Policy" '
        "content=\"default-src 'none'; img-src data:; style-src 'unsafe-inline'\">",
        f"<title>{_text(book.title)}</title>", f"<style>{style}</style>", "</head>", "<body>",
        '<p class="small">Builder’s book</p>', f"<h1>{_text(book.title)}</h1>",
    ]  # fmt: skip
    if book.cover is not None:
        lines.append(_image(vectors[id(book.cover)], book.cover.says))
    lines += _table(Grid("", ("", ""), book.particulars))
    lines += [f'<p class="heed">{_text(DEFERS)}</p>', f'<p class="small">{_text(book.made)}</p>']
    lines += ["<nav>", "<h2>Contents</h2>", "<ol>"]
    lines += [f'<li><a href="#{one.key}">{_text(one.title)}</a></li>' for one in book.sections]
    lines += ["</ol>", "</nav>"]
    for section in book.sections:
        lines.append(f'<section id="{section.key}"><h2>{_text(section.title)}</h2>')
        for block in section.blocks:
            lines += _block(block, vectors)
        lines.append("</section>")
    return "\n".join([*lines, "</body>", "</html>", ""])


def _text(words: str) -> str:
    return escape(printable(words))


def _block(block: Block, vectors: Vectors) -> Iterator[str]:
    if isinstance(block, Words):
        tag = _MANNERS[block.manner]
        yield f'<{tag} class="{block.manner}">{_text(block.text)}</{tag}>'
    elif isinstance(block, Judged):
        yield (
            f'<p class="found {block.level}"><b>{block.level.upper()}</b> {_text(block.text)} '
            f"<small>({_text(block.source)})</small></p>"
        )
    elif isinstance(block, Grid):
        yield from _table(block)
    elif isinstance(block, Formula):
        yield from _formula(block)
    elif isinstance(block, Shown):
        yield f"<figure>{_image(vectors[id(block)], block.picture.title)}"
        yield f"<figcaption>{_text(block.says)}</figcaption></figure>"
    elif isinstance(block, Drawn):
        name = f"Sheet {block.number}: {block.drawing.title}"
        yield f"<h3>{_text(name)}</h3><figure>{_image(vectors[id(block)], name)}</figure>"
    elif isinstance(block, Ticks):
        yield from _ticks(block)


def _table(grid: Grid) -> Iterator[str]:
    if not grid.rows:
        return
    if grid.title:
        yield f"<h3>{_text(grid.title)}</h3>"
    yield '<div class="table"><table>'
    if any(grid.columns):
        heads = "".join(f"<th>{_text(one)}</th>" for one in grid.columns)
        yield f"<thead><tr>{heads}</tr></thead>"
    yield "<tbody>"
    for row in grid.rows:
        if is_heading(row):
            yield f'<tr><th class="within" colspan="{len(row)}">{_text(row[0])}</th></tr>'
        else:
            yield f"<tr>{''.join(f'<td>{_text(one)}</td>' for one in row)}</tr>"
    yield "</tbody></table></div>"
    if grid.note:
        yield f'<p class="small">{_text(grid.note)}</p>'


def _formula(block: Formula) -> Iterator[str]:
    working = block.working
    yield (
        f'<div class="formula"><p><b>{_text(working.label)}</b> <b>{_text(block.result)}</b></p>'
    )
    yield from _mathematics(working)
    yield f'<p class="small">{_text(signed(working.relation.source))}</p></div>'


def _mathematics(working: Working) -> list[str]:
    """Return the relation in symbols and in numbers as MathML."""
    from latex2mathml.converter import convert

    lines = [shortened(tex) for tex in (working.in_symbols(), working.in_numbers())]
    try:
        for tex in lines:
            typeset(tex)  # what the one cannot read the other is not to guess at
    except Untranslated:
        return []
    return [str(convert(tex, display="block")) for tex in lines]


def _image(vector: Vector, alt: str) -> str:
    data = base64.b64encode(vector.svg).decode("ascii")
    return (
        f'<img alt="{_text(alt)}" style="width:{vector.wide:.1f}mm" '
        f'src="data:image/svg+xml;base64,{data}">'
    )


def _ticks(block: Ticks) -> Iterator[str]:
    if block.title:
        yield f"<h3>{_text(block.title)}</h3>"
    yield '<ul class="ticks">'
    for does, why in block.items:
        small = f"<br><small>{_text(why)}</small>" if why else ""
        yield f'<li><label><input type="checkbox"> {_text(does)}</label>{small}</li>'
    yield "</ul>"
