"""`notesparse teach` and `notesparse unteach`: words of the user's own."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Annotated

import typer

from notesparse.cli.options import options_of
from notesparse.errors import InputError, VocabularyError

Notes = Annotated[
    list[str] | None,
    typer.Option("--notes", metavar="NOTE", help="Show which of these notes would read differently; may be repeated."),
]
DryRun = Annotated[bool, typer.Option("--dry-run", "-n", help="Say what would change, and change nothing.")]


def teach(
    word: Annotated[
        str | None, typer.Argument(metavar="WORD", help="The word or phrase, as it stands in notes.")
    ] = None,
    meaning: Annotated[
        str | None, typer.Argument(metavar="MEANING", help="A word that notesparse knows, or: nothing.")
    ] = None,
    kind: Annotated[str | None, typer.Option("--kind", help="Which meaning, where the word has several.")] = None,
    notes: Notes = None,
    listed: Annotated[bool, typer.Option("--list", help="List what was taught.")] = False,
    as_json: Annotated[bool, typer.Option("--json", help="The list as JSON.")] = False,
    dry_run: DryRun = False,
) -> None:
    """Teach a word that was not understood: it is read from then on as a word that notesparse knows.

    The words are kept in a file of your own, of the same form as the program's word files. A word that has another
    meaning already is refused, with the place of that meaning.

    \b
    Examples:
      notesparse teach paddles unifoliates
      notesparse teach "whirly birds" nothing --dry-run --notes demo_notes
      notesparse teach --list
    """
    from notesparse.settings.layers import taught_file

    path = taught_file()
    if listed or as_json:
        _list(path, as_json)
        return
    if word is None or meaning is None:
        raise typer.BadParameter("a WORD and its MEANING are wanted, as in: teach paddles unifoliates")
    with_it = _taught(word, meaning, kind)
    _change(path, with_it, dry_run, notes, f"“{word}” is read as {meaning}", f"notesparse unteach {_quoted(word)}")


def unteach(
    word: Annotated[str, typer.Argument(metavar="WORD", help="A word that was taught.")],
    notes: Notes = None,
    dry_run: DryRun = False,
) -> None:
    """Take a taught word back.

    \b
    Example:
      notesparse unteach paddles
    """
    from notesparse.language.taught import without_word
    from notesparse.settings.layers import taught_file

    _change(taught_file(), lambda text: without_word(text, word), dry_run, notes, f"“{word}” is taught no more", None)


def _quoted(word: str) -> str:
    return f'"{word}"' if " " in word else word


def _taught(word: str, meaning: str, kind: str | None) -> Callable[[str], str]:
    """What makes the new file of the old one. Raises `InputError` where the meaning is not known, or not one."""
    from notesparse.language.taught import meanings, with_word
    from notesparse.language.vocabulary import vocabulary

    words = vocabulary()
    senses = meanings(words, meaning)
    if not senses:
        from notesparse.text.match import near_words

        hint = near_words(meaning, words)
        close = f" Near it are: {', '.join(hint)}." if hint else ""
        raise InputError(f"{meaning!r} is no word that notesparse knows, so nothing can be read as it.{close}")
    if kind is not None:
        senses = [s for s in senses if s[0] == kind.upper()]
    if len(senses) != 1:
        shown = ", ".join(f"{s[0]} ({s[1]})" for s in senses) or "none of that kind"
        raise InputError(f"{meaning!r} has several meanings ({shown}); say which with --kind.")
    return lambda text: with_word(text, word, senses[0][0], senses[0][1])


def _change(
    path: str, change: Callable[[str], str], dry_run: bool, notes: list[str] | None, said: str, back: str | None
) -> None:
    from notesparse.record.store import locked, write_whole
    from notesparse.settings.file import read_text

    try:
        if dry_run:
            before = read_text(path)
            after = change(before)
        else:
            Path(path).parent.mkdir(parents=True, exist_ok=True)
            with locked(path):
                before = read_text(path)
                after = change(before)
                with write_whole(path) as file:
                    file.write(after)
    except VocabularyError as fault:
        raise InputError(str(fault).replace("words.toml", path, 1)) from None
    would = " (tried only, nothing was written)" if dry_run else f", in {path}"
    print(f"{said}{would}." + (f" To take it back: {back}" if back and not dry_run else ""))
    if notes:
        _compare(notes, before, after)


def _compare(notes: list[str], before: str, after: str) -> None:
    """Which of some notes read differently, and how."""
    from dataclasses import replace

    from notesparse.answers.reading import read_answered
    from notesparse.record.compare import differences
    from notesparse.record.gather import gather
    from notesparse.record.lines import to_dict
    from notesparse.record.store import load
    from notesparse.views.wording import many

    found, faults = gather(notes)
    options = options_of(no_taught=True)
    different = 0
    for path in found:
        try:
            note = load(path)
            old, new = (to_dict(read_answered(note, None, replace(options, words=words))) for words in (before, after))
        except InputError as fault:
            faults.append(fault)
            continue
        told = differences(old, new)
        if told:
            different += 1
            print("\n".join([path, *(f"   {line}" for line in told)]))
    for one in faults:
        print(one, file=sys.stderr)
    print(f"{different} of {many(len(found), 'note')} read differently.")
    if faults:
        raise typer.Exit(1)


def _list(path: str, as_json: bool) -> None:
    from notesparse.language.taught import taught_in
    from notesparse.settings.file import read_text

    try:
        words = taught_in(read_text(path)) if os.path.exists(path) else []
    except VocabularyError as fault:
        raise InputError(str(fault).replace("words.toml", path, 1)) from None
    if as_json:
        print(json.dumps([{"say": w.say, "kind": w.kind, "means": w.means} for w in words], indent=2))
        return
    for one in words:
        print(f"   {one.say}: {one.means} ({one.kind})")
    print(f"{len(words)} taught, in {path}.")
