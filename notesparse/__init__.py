"""Reads a crop scout's soybean notes into a checkable record with growth stages, offline.

    >>> import notesparse
    >>> outcome = notesparse.read("plant 3 eleven trifs, flowers top two nodes", date="2026-07-14")
    >>> print(outcome.to_json())

Every public name is loaded on its first use, so that `notesparse.staging` can be imported with nothing else installed.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

__version__ = "0.1.0"

if TYPE_CHECKING:
    from notesparse.api import read as read
    from notesparse.errors import InputError as InputError
    from notesparse.errors import NotesparseError as NotesparseError
    from notesparse.facts import FieldStage as FieldStage
    from notesparse.facts import PlantFacts as PlantFacts
    from notesparse.facts import Staged as Staged
    from notesparse.facts import Tally as Tally
    from notesparse.options import Options as Options
    from notesparse.outcome import Answer as Answer
    from notesparse.outcome import Choice as Choice
    from notesparse.outcome import Doubt as Doubt
    from notesparse.outcome import Finding as Finding
    from notesparse.outcome import Note as Note
    from notesparse.outcome import Outcome as Outcome
    from notesparse.outcome import PlantRecord as PlantRecord
    from notesparse.outcome import Question as Question
    from notesparse.outcome import Visit as Visit
    from notesparse.record.table import to_frame as to_frame
    from notesparse.span import Span as Span

_HOME = {
    "read": "api",
    "InputError": "errors",
    "NotesparseError": "errors",
    "FieldStage": "facts",
    "PlantFacts": "facts",
    "Staged": "facts",
    "Tally": "facts",
    "Options": "options",
    "Answer": "outcome",
    "Choice": "outcome",
    "Doubt": "outcome",
    "Finding": "outcome",
    "Note": "outcome",
    "Outcome": "outcome",
    "PlantRecord": "outcome",
    "Question": "outcome",
    "Visit": "outcome",
    "to_frame": "record.table",
    "Span": "span",
}

__all__ = ["__version__", *_HOME]


def __getattr__(name: str) -> Any:
    if name not in _HOME:
        raise AttributeError(f"module 'notesparse' has no attribute {name!r}")
    value = getattr(import_module(f"notesparse.{_HOME[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted(__all__)
