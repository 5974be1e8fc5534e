"""`notesparse stage`: stages from a table of counted plants, with no note at all."""

from __future__ import annotations

import csv
import io
import sys
from typing import Annotated

import typer

from notesparse.cli.options import Color, Rule, Scout, Set, StrictTop, options_of
from notesparse.errors import InputError


def stage(
    facts: Annotated[str, typer.Argument(metavar="FACTS.csv", help="A table of facts, or - for standard input.")],
    as_csv: Annotated[bool, typer.Option("--csv", help="The whole table as CSV, with the stages added.")] = False,
    output: Annotated[
        str | None, typer.Option("--output", "-o", metavar="FILE", help="Write here, whole or not at all.")
    ] = None,
    force: Annotated[bool, typer.Option("--force", help="Let -o replace a file that could be a note.")] = False,
    counting_rule: Rule = None,
    strict_top: StrictTop = None,
    scout: Scout = None,
    sets: Set = None,
    color: Color = None,
) -> None:
    """Stage plants from a table, one plant a row.

    The first line names the columns: plant, stop, field, date as you like, and facts such as trifoliates, nodes,
    flowers, flowers_from_top, pod_mm or pod_in, pods_from_top, seed_mm or seed_in, seed_fill, mature_pods_percent.
    An empty cell says nothing.

    \b
    Examples:
      notesparse stage facts.csv
      notesparse stage facts.csv -o staged.csv
    """
    from notesparse.cli.colour import paint_for
    from notesparse.cli.out import form_of, guard, opened
    from notesparse.cli.typed import typed
    from notesparse.record.facts_table import read_facts, stage_table
    from notesparse.record.store import load
    from notesparse.views.paint import plain
    from notesparse.views.staged import staged

    options = options_of(counting_rule, None, strict_top, scout, sets, no_taught=True)
    table = typed("table") if facts == "-" else load(facts, "table")
    guard(output, [facts], force)
    lines = io.StringIO(table.text, newline="")
    to_file = output is not None and output != "-"
    try:
        if as_csv or form_of(output) == "csv":
            text = io.StringIO()
            csv.writer(text, lineterminator="\n").writerows(
                stage_table(lines, options.counting_rule, options.strict_top)
            )
            result = text.getvalue()
        else:
            paint = plain if to_file else paint_for(color, sys.stdout)
            result = staged(read_facts(lines), options.counting_rule, options.strict_top, paint=paint)
    except InputError as fault:
        name = "standard input" if facts == "-" else facts
        raise InputError(f"{name} cannot be staged.\n{fault}") from None
    with opened(output) as out:
        out.write(result)
