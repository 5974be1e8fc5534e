"""`notesparse words`: what can be said, as a card to print; and what a word means."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from typing import TYPE_CHECKING, Annotated

import typer

from notesparse.cli.options import Color, options_of
from notesparse.errors import InputError

if TYPE_CHECKING:
    from notesparse.views.paint import Paint


def words(
    word: Annotated[
        list[str] | None, typer.Argument(metavar="[WORD]", help="Show the meanings of this word; none: the card.")
    ] = None,
    as_html: Annotated[bool, typer.Option("--html", help="The card as a page to print.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="As JSON.")] = False,
    output: Annotated[str | None, typer.Option("-o", "--output", metavar="FILE", help="Write to this file.")] = None,
    color: Color = None,
) -> None:
    """Show what can be said: a card of one page, or the meanings and spellings of one word.

    Every line of the card is read as it stands, with nothing asked and nothing left over.

    \b
    Examples:
      notesparse words
      notesparse words --html -o card.html
      notesparse words pods
      notesparse words "pin pods" --json
    """
    from notesparse.cli.colour import paint_for
    from notesparse.cli.out import opened
    from notesparse.spoken.card import card
    from notesparse.views import words as view
    from notesparse.views.paint import plain

    query = " ".join(word or ())
    paint = plain if output is not None else paint_for(color, sys.stdout)
    if as_html and (query or as_json):
        raise typer.BadParameter("--html is the card, and stands alone")
    if query:
        lines = _meanings(query, as_json, paint)
    elif as_json:
        lines = json.dumps([asdict(topic) for topic in card()], indent=2, ensure_ascii=False).split("\n")
    elif as_html or (output or "").lower().endswith((".html", ".htm")):
        lines = view.card_page(card()).rstrip("\n").split("\n")
    else:
        lines = view.card(card(), paint=paint)
    with opened(output) as out:
        out.write("\n".join(lines) + "\n")


def _meanings(query: str, as_json: bool, paint: Paint) -> list[str]:
    """What a word means, as lines. Raises `InputError` with near words where there is none."""
    from notesparse.language.card import entries, find
    from notesparse.spoken.card import card
    from notesparse.views import words as view

    taught = options_of().words
    found = find(query, entries(taught))
    if not found:
        raise InputError(f"No word like {query!r} is known.{_near(query)} To teach it: notesparse teach.")
    if as_json:
        return json.dumps([asdict(e) for e in found], indent=2, ensure_ascii=False).split("\n")
    asked = f" {query.casefold()}"
    said = [e for t in card() for e in t.examples if asked in f" {e.say.casefold()}"]
    return view.meanings(query, found, said, paint=paint)


def _near(query: str) -> str:
    from notesparse.language.vocabulary import vocabulary
    from notesparse.text.match import near_words

    hint = near_words(query, vocabulary())
    return f" Near it are: {', '.join(hint)}." if hint else ""
