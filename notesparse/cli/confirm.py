"""`notesparse confirm`: going through the open questions at the terminal, one key an answer."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from notesparse.cli.options import (
    Color,
    Date,
    DayFirst,
    Rule,
    Scout,
    Set,
    StrictTop,
    Untaught,
    flags_of,
    iso_date,
    options_of,
)
from notesparse.errors import InputError

if TYPE_CHECKING:
    from notesparse.cli.hear import Voice
    from notesparse.confirming.session import Sitting, Turn
    from notesparse.options import Options
    from notesparse.views.paint import Paint


def confirm(
    notes: Annotated[list[str], typer.Argument(metavar="NOTE...", help="Files, folders or quoted patterns.")],
    every: Annotated[
        bool, typer.Option("--all", help="After the questions, offer every value of the record to be put right.")
    ] = False,
    unknown: Annotated[
        bool, typer.Option("--teach", help="After the questions, go through the words that were not understood.")
    ] = False,
    answers: Annotated[
        str | None, typer.Option("--answers", metavar="FILE", help="Keep the answers in this file.")
    ] = None,
    listen: Annotated[
        bool, typer.Option("--listen", help="Answer by voice too: Space, speak, Enter (or say yes).")
    ] = False,
    recordings: Annotated[
        str | None, typer.Option("--recordings", metavar="DIR", help="Answers as sound files, in order of their names.")
    ] = None,
    date: Date = None,
    counting_rule: Rule = None,
    day_first: DayFirst = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    no_taught: Untaught = False,
    color: Color = None,
) -> None:
    """Answer the open questions of notes, one key an answer; those that can change a field's stage come first.

    Each answer is kept at once in a file beside the note (NOTE.answers.toml), and every later command applies it.
    The note itself is never changed.

    \b
    Examples:
      notesparse confirm 2026-08-05_willow-draw.txt
      notesparse confirm notes/ --answers notes/answers.toml
      notesparse confirm notes/ --scout dana --teach
      notesparse confirm notes/ --listen

    Without a terminal: notesparse questions NOTE... --csv -o sheet.csv, fill in the column answer, and then
    notesparse answer sheet.csv.
    """
    if recordings is None and not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise InputError(
            "confirm asks at a terminal, and there is none here. Write the questions to a sheet with\n"
            "  notesparse questions NOTE... --csv -o sheet.csv\n"
            "fill in the column answer, and take it in with\n"
            "  notesparse answer sheet.csv"
        )
    from notesparse.cli.colour import paint_for
    from notesparse.confirming.session import Sitting
    from notesparse.record.gather import gather
    from notesparse.record.store import load
    from notesparse.settings.layers import in_force
    from notesparse.views.confirm import closing

    found, faults = gather([n for n in notes if n != "-"])
    loaded = []
    for path in found:
        try:
            loaded.append(load(path))
        except InputError as fault:
            faults.append(fault)
    for one in faults:
        print(one, file=sys.stderr)
    if not loaded:
        raise typer.Exit(1)
    options = options_of(counting_rule, day_first, strict_top, scout, sets, no_taught)
    sitting = Sitting(loaded, options, iso_date(date) if date else None, answers)
    paint = paint_for(color, sys.stdout)
    voice = None
    if listen or recordings is not None:
        from notesparse.cli.hear import voice as by_voice

        voice = by_voice(recordings)
    who = in_force(flags_of(scout=scout, sets=sets))["scout"].value or None
    try:
        if _questions(sitting, paint, who, voice):
            if unknown:
                _teach(sitting)
            if every:
                _values(sitting)
    except (KeyboardInterrupt, EOFError):
        print()
    print(closing(sitting.answered, len(sitting.turns()), len(sitting.skipped), sitting.files))
    if faults:
        raise typer.Exit(1)


def _width() -> int:
    from notesparse.views.cells import WIDTH

    return max(40, min(WIDTH, shutil.get_terminal_size((WIDTH, 24)).columns - 1))


def _questions(sitting: Sitting, paint: Paint, scout: str | None, voice: Voice | None = None) -> bool:
    """Asks until nothing is left; whether it came to that, and was not stopped."""
    from notesparse.asking.values import other_keys
    from notesparse.views.confirm import HELP, screen

    while True:
        turn = sitting.next()
        if turn is None:
            if sitting.done and (voice is None or voice.keys) and _not_yet(sitting):
                continue
            return True
        other = bool(other_keys(turn.question))
        print("\n" + screen(turn.outcome, turn.question, len(sitting.turns()), _width(), paint, other))
        while True:
            key = voice.key(turn.question) if voice else typer.getchar()
            if voice and voice.told:
                _done(sitting, turn, sitting.tell(turn, voice.told))
                break
            if key in ("\x03", "\x04"):
                raise KeyboardInterrupt
            if key == "?":
                print(HELP)
                continue
            if key == "q":
                return False
            if _act(sitting, turn, key, other, scout, habits=voice is None or voice.keys):
                break


def _not_yet(sitting: Sitting) -> bool:
    """After the last question: a slip of the finger on it can still be undone. Whether there is a question again."""
    print("\n   That was the last question.   u undo   p back   Enter finish")
    while True:
        key = typer.getchar()
        if key in ("\x03", "\x04"):
            raise KeyboardInterrupt
        if key == "u" or key == "p":
            if sitting.undo() if key == "u" else sitting.again():
                return True
        elif key in ("\r", "\n", "q"):
            return False


def _act(sitting: Sitting, turn: Turn, key: str, other: bool, scout: str | None, habits: bool = True) -> bool:
    """Does what a key asks for; whether another screen is due."""
    from notesparse.outcome import LETTERS

    at = LETTERS.find(key) if len(key) == 1 else -1
    if 0 <= at < len(turn.question.choices):
        _done(sitting, turn, sitting.choose(turn, at))
        if habits:
            _habit(sitting, turn, at, scout)
        return True
    if key == "o" and other:
        values = _typed(turn)
        if values is None:
            return True
        _done(sitting, turn, sitting.tell(turn, values))
        return True
    if key == "s":
        sitting.skip(turn)
        print("   skipped")
        return True
    if key == "p":
        if sitting.back():
            return True
        print("   There is no question before this one.")
    elif key == "u":
        if sitting.undo():
            print("   undone")
            return True
        print("   There is nothing to undo.")
    elif key.isprintable() and key.strip():
        print(f"   {key!r} is none of the keys; ? shows them.")
    return False


def _done(sitting: Sitting, turn: Turn, stands: Turn) -> None:
    from notesparse.views.confirm import effect

    print(effect(turn.outcome, sitting.outcomes[turn.note], stands.question))


def _habit(sitting: Sitting, turn: Turn, at: int, scout: str | None) -> None:
    """A habit is asked once: whether the answer is kept for this note, for the scout, or always."""
    from notesparse.settings.layers import keep

    question = turn.question
    value = question.habits[at] if at < len(question.habits) else ""
    if not question.habit or not value:
        return
    name = question.habit
    whose = f"   s {scout}'s notes" if scout else ""
    print(f"   Does that hold for   n this note{whose}   a all notes?   Enter: this one answer only")
    while True:
        key = typer.getchar()
        if key in ("\x03", "\x04"):
            raise KeyboardInterrupt
        if key == "n":
            sitting.choose_alike(turn, at)
        elif key == "a" or (key == "s" and scout):
            path = keep(name, value, scout if key == "s" else None)
            print(f"   {name} {value}, kept in {path}")
            sitting.use(_options_again(sitting, name, value))
        elif key not in ("\r", "\n"):
            continue
        return


def _options_again(sitting: Sitting, name: str, value: str) -> Options:
    from dataclasses import replace

    changed: dict[str, Any] = {name: value}
    return replace(sitting.options, **changed)


def _typed(turn: Turn) -> dict[str, Any] | None:
    """The values typed in the place of a choice; None where it was left after all."""
    from notesparse.asking.values import other_keys

    values: dict[str, Any] = {}
    for key in other_keys(turn.question):
        given, value = _value(key)
        if not given:
            continue
        values[key] = value
    return values or None


def _value(key: str, read: Callable[[str], str] = input) -> tuple[bool, Any]:
    """One typed value of a fact: whether one was given, and which. Asks again until it is one."""
    from notesparse.asking.values import MAY_BE, Refused, from_words
    from notesparse.views.wording import KEYS

    print(f"   {KEYS.get(key, key.replace('_', ' '))}: {MAY_BE[key]} (not known, or Enter to leave it)")
    while True:
        words = read("   > ").strip()
        if not words:
            return False, None
        try:
            return True, from_words(key, words)
        except Refused as fault:
            print(f"   {fault}")


def _teach(sitting: Sitting) -> None:
    """The words that were not understood, one after the other: what they mean, or nothing, or left as they are."""
    from notesparse.cli.teach import teach
    from notesparse.views.cells import safe

    seen: set[str] = set()
    for k, outcome in enumerate(sitting.outcomes):
        for part in outcome.unread:
            words = " ".join(part.quote.split())
            if part.why != "no known word" or words.casefold() in seen or len(words.split()) > 4:
                continue
            seen.add(words.casefold())
            print(f"\n   {safe(sitting.notes[k].source)}: “{safe(words)}” was not understood.")
            meaning = input("   It means (a word that notesparse knows, or nothing; Enter to leave it) > ").strip()
            if not meaning:
                continue
            try:
                teach(words, meaning, None, None)
            except InputError as fault:
                print(f"   {fault}")


def _values(sitting: Sitting) -> None:
    """Every value of each record, to be put right by its number."""
    from notesparse.views.confirm import values

    for k in range(len(sitting.notes)):
        while True:
            lines, items = values(sitting.outcomes[k], _width())
            print(f"\n{sitting.notes[k].source}\n" + "\n".join(lines))
            words = input("   The number of a value to put right, or Enter to go on > ").strip()
            if not words:
                break
            if not words.isdigit() or not 1 <= int(words) <= len(items):
                print(f"   {words!r} is none of the numbers.")
                continue
            visit, plant, stop, key = items[int(words) - 1]
            given, value = _value(key)
            if given:
                sitting.set_by_hand(k, visit, plant, stop, key, value)
