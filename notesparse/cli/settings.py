"""`notesparse settings`: the values in force and where each comes from; setting and unsetting them."""

from __future__ import annotations

import json
from typing import Annotated

import typer

from notesparse.cli.options import Scout, Set, flags_of
from notesparse.errors import InputError

app = typer.Typer(
    no_args_is_help=False,
    invoke_without_command=True,
    rich_markup_mode=None,
    help="Show the settings in force and where each comes from; set and unset them.",
)
Project = Annotated[bool, typer.Option("--project", help="In the project's notesparse.toml, not in your own settings.")]
DryRun = Annotated[bool, typer.Option("--dry-run", "-n", help="Say what would be written, and write nothing.")]


@app.callback()
def settings(
    context: typer.Context,
    as_json: Annotated[bool, typer.Option("--json", help="As JSON.")] = False,
    scout: Scout = None,
    sets: Set = None,
) -> None:
    """Show the settings in force and where each comes from; set and unset them.

    A flag goes over the environment (NOTESPARSE_COUNTING_RULE and so on), that over the project's file notesparse.toml in
    this folder or one above it, that over your own file, that over what is built in. In a file, a table [habits.NAME] holds
    the habits of one scout.

    \b
    Examples:
      notesparse settings
      notesparse settings set counting_rule open-nodes
      notesparse settings set rolled_tip counted --scout dana
      notesparse settings unset counting_rule
    """
    if context.invoked_subcommand is not None:
        return
    from notesparse.settings.file import user_file
    from notesparse.settings.layers import in_force
    from notesparse.views.settings import settings as view

    now = in_force(flags_of(scout=scout, sets=sets))
    if as_json:
        print(json.dumps({name: {"value": one.value, "where": one.where} for name, one in now.items()}, indent=2))
        return
    rows = [(name, one.value, one.where, one.setting.meaning) for name, one in now.items()]
    print("\n".join([*view(rows), "", f"   Your own settings: {user_file()}"]))


@app.command("set", short_help="Set a value, for everybody or for one scout.")
def put(
    name: Annotated[str, typer.Argument(metavar="NAME", help="A setting; notesparse settings lists them.")],
    value: Annotated[str, typer.Argument(metavar="VALUE", help="What it is to be.")],
    scout: Scout = None,
    project: Project = False,
    dry_run: DryRun = False,
) -> None:
    """Set a value, in your own settings or in the project's.

    \b
    Examples:
      notesparse settings set counting_rule open-nodes
      notesparse settings set rolled_tip counted --scout dana
    """
    _put(name, value, scout, project, dry_run)


@app.command(short_help="Take a value out again.")
def unset(
    name: Annotated[str, typer.Argument(metavar="NAME", help="A setting.")],
    scout: Scout = None,
    project: Project = False,
    dry_run: DryRun = False,
) -> None:
    """Take a value out of your own settings or of the project's.

    \b
    Example:
      notesparse settings unset counting_rule
    """
    _put(name, None, scout, project, dry_run)


def _put(name: str, value: str | None, scout: str | None, project: bool, dry_run: bool) -> None:
    from notesparse.settings.file import nearest
    from notesparse.settings.layers import keep
    from notesparse.settings.table import setting

    one = setting(name, nearest)
    whose = f" of {scout}" if scout else ""
    if dry_run:
        try:
            shown = "unset" if value is None else one.read(value)
        except ValueError:
            raise InputError(f"{one.name} is {value!r}, and should be {one.may_be}.") from None
        print(f"{one.name}{whose} would be {shown}.")
        return
    path = keep(one.name, value, scout, project)
    print(f"{one.name}{whose} {'is unset' if value is None else f'is {value}'}, in {path}.")
