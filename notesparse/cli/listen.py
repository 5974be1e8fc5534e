"""`notesparse listen`: recordings of spoken notes to the same records as `notesparse read`."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING, Annotated

import typer

from notesparse.cli.options import (
    Color,
    Date,
    DayFirst,
    Debug,
    Rule,
    Scout,
    Set,
    StrictTop,
    Untaught,
    iso_date,
    options_of,
)
from notesparse.cli.say import Said
from notesparse.errors import InputError
from notesparse.lazy import dataclass

if TYPE_CHECKING:
    from notesparse.cli.work import Done
    from notesparse.listening.ears import Ears
    from notesparse.options import Options
    from notesparse.spoken.own import Own

WEAK = (
    "No speech model is there, so only the small recogniser listens: this is the weak way, and much is asked. "
    "For the strong way give a Whisper model with --model, or get one with --fetch-model."
)
UNSAYABLE = "The small recogniser does not know how these words of yours sound, and so cannot hear them: {}."


def listen(
    context: typer.Context,
    recordings: Annotated[
        list[str] | None, typer.Argument(metavar="FILE...", help="Sound files, folders, or quoted patterns.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="One JSON record a line, one line a recording.")] = False,
    as_csv: Annotated[bool, typer.Option("--csv", help="Tidy rows, one observed value a row.")] = False,
    output: Annotated[
        str | None, typer.Option("--output", "-o", metavar="FILE", help="Write here, whole or not at all.")
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Let -o and --notes replace what is there.")] = False,
    notes: Annotated[
        str | None,
        typer.Option("--notes", metavar="DIR", help="Keep what was heard there as notes, for read, confirm and keep."),
    ] = None,
    model: Annotated[
        str | None,
        typer.Option("--model", metavar="DIR", envvar="NOTESPARSE_MODEL", help="A Whisper model for CTranslate2."),
    ] = None,
    fetch_model: Annotated[
        bool, typer.Option("--fetch-model", help="Get a Whisper model (145 MB) from the network first.")
    ] = False,
    date: Date = None,
    counting_rule: Rule = None,
    day_first: DayFirst = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    no_taught: Untaught = False,
    color: Color = None,
    quiet: Annotated[bool, typer.Option("--quiet", "-q", help="No progress and no closing line.")] = False,
    debug: Debug = False,
) -> None:
    """Listen to recordings of spoken notes, offline: what was heard, and the record that it makes.

    Two recognisers listen. Where they differ it is asked, with both hearings and the place in the recording; what is
    mostly noise, or is no note, is refused and shown as not understood.

    \b
    Examples:
      notesparse listen walk.m4a --model whisper-base
      notesparse listen 2026-07-14_creek-bottom.wav --json -o creek.jsonl
      notesparse listen recordings/ --notes notes/
      notesparse confirm notes/

    Without a model the small recogniser listens alone. That is much weaker, and asks and refuses more.
    Nothing is fetched unless --fetch-model says so, and no sound ever leaves this computer.

    \b
    Exit status: 0 all recordings were heard (with or without questions),
    1 some could not be, 2 the command line was wrong.
    """
    if as_json and as_csv:
        raise typer.BadParameter("choose --json or --csv, not both")
    if not recordings and not fetch_model:
        typer.echo(context.get_help(), err=True)
        raise typer.Exit(2)
    from notesparse.cli.colour import coloured, paint_for
    from notesparse.cli.out import closing, form_of, guard, opened, write_each
    from notesparse.listening.audio import ENDINGS
    from notesparse.record.gather import gather

    folder = model_folder(model, fetch_model, quiet)
    if not recordings:
        return
    found, missing = gather(recordings, ENDINGS, "recording")
    guard(output, found, force)
    if notes is not None and not os.path.isdir(notes):
        raise InputError(f"{notes}: there is no such folder; make it first.")
    day = iso_date(date) if date else None
    options = options_of(counting_rule, day_first, strict_top, scout, sets, no_taught)
    said = Said(progress=not quiet and sys.stderr.isatty())
    form = "json" if as_json else "csv" if as_csv else form_of(output)
    colour = form == "page" and output in (None, "-") and paint_for(color, sys.stdout) is coloured
    for fault in missing:
        said.say("fault", str(fault))
    results: Iterator[Done] = iter(())
    if found:
        way = Way(ears_with(folder, own_words(options)), folder, options, day, form, colour, notes, force, debug)
        results = _each(found, way, said)
    with opened(output) as out:
        tally = write_each(results, form, colour, out, said)
        said.close()
        if not tally.notes and output not in (None, "-"):
            raise InputError(f"No recording could be heard, so {output} was not written.")
    line = closing(output, tally)
    if line and not quiet:
        typer.echo(line, err=True)
    if said.failed:
        raise typer.Exit(1)


def model_folder(asked: str | None, fetch: bool, quiet: bool) -> str | None:
    """The folder of the model to listen with: the one that is named, else one that was fetched before; None: there is
    none. With `fetch` it is got first."""
    from notesparse.listening import models
    from notesparse.listening.whisper import Whisper

    place = asked or models.fetched_place()
    if fetch:
        if not quiet:
            typer.echo(f"Getting the model {models.WANTED} into {place} ...", err=True)
        models.fetch(place, lambda folder: Whisper(folder, str.split))
        if not quiet:
            typer.echo(f"The model is there and can be loaded: {place}", err=True)
        return place
    return models.checked(place) if asked or os.path.isdir(place) else None


def own_words(options: Options) -> Own:
    """The names of the fields in the season log of the settings, where there is one, and the taught words."""
    from contextlib import closing

    from notesparse.season.fieldnames import names
    from notesparse.season.log import connect
    from notesparse.settings.layers import in_force
    from notesparse.spoken.own import Own

    path = str(in_force()["season"].value)
    if not path or not os.path.exists(path):
        return Own((), options.words)
    with closing(connect(path)) as log:
        return Own(tuple(names(log)), options.words)


def ears_with(folder: str | None, own: Own) -> Ears:
    """The recognisers that are there. The weak way is told of, also where other remarks are not wanted."""
    from notesparse.listening.alone import Alone
    from notesparse.listening.ears import Both, spoken_language
    from notesparse.spoken.compiled import compiled

    trade, small, spell = spoken_language(own)
    if unsayable := compiled(own).unsayable():
        typer.echo(UNSAYABLE.format(", ".join(f"“{word}”" for word in unsayable)), err=True)
    if folder is None:
        typer.echo(WEAK, err=True)
        return Alone.of(small, trade)
    from notesparse.listening.whisper import Whisper

    return Both(Whisper(folder, spell, own.names), small(), trade)


@dataclass(frozen=True, slots=True)
class Way:
    """How recordings are listened to, and what is made of each."""

    ears: Ears
    model: str | None
    options: Options
    day: str | None
    form: str
    colour: bool
    notes: str | None
    force: bool
    debug: bool


def _each(found: list[str], way: Way, said: Said) -> Iterator[Done]:
    """What becomes of each recording, in order. A recording that cannot be heard does not cost the others."""
    import traceback

    from notesparse.cli.work import Done

    for path in found:
        try:
            yield _one(path, way, said)
        except InputError as fault:
            yield Done(path, fault=str(fault))
        except (ArithmeticError, AttributeError, LookupError, RuntimeError, TypeError, ValueError) as fault:
            where = traceback.format_exc() if way.debug else f"{type(fault).__name__}: {fault}"
            yield Done(path, fault=f"{path}: the program itself failed on this recording, please report it ({where})")


def _one(path: str, way: Way, said: Said) -> Done:
    from notesparse import flow
    from notesparse.answers.heard import beside_of
    from notesparse.answers.reading import read_answered
    from notesparse.cli.work import Done, as_text
    from notesparse.listening.audio import load
    from notesparse.listening.ears import heard
    from notesparse.listening.keeping import keep, lying_beside, note_file
    from notesparse.listening.note import note_of, with_names_doubted

    recording = load(path)
    seconds, name = round(recording.seconds), os.path.basename(path)
    utterances = list(heard(recording, way.ears, lambda done: said.step(round(done), seconds, f"seconds of {name}")))
    said.clear()
    if not utterances:
        raise InputError(f"{path}: there is no speech in this recording.")
    large = os.path.basename(os.path.abspath(way.model)) if way.model is not None else None
    by = f"{large} and pocketsphinx" if large is not None else "pocketsphinx alone"
    made = note_of(recording, utterances, by, way.ears.weak, _print_of(way.model))
    if way.ears.weak:
        visits = flow.read(made.text, options=way.options).visits
        made = with_names_doubted(made, [v.spans["field"] for v in visits if "field" in v.spans])
    note = keep(made, way.notes, way.force) if way.notes else note_file(made, path)
    beside = beside_of(lying_beside(made, note), path)
    outcome = read_answered(note, way.day, way.options, heard=beside)
    text = as_text(outcome, way.form, way.colour)
    return Done(path, text, sum(q.answer is None for q in outcome.questions))


@lru_cache(maxsize=1)
def _print_of(folder: str | None) -> str | None:
    from notesparse.listening.models import fingerprint

    return None if folder is None else fingerprint(folder)
