"""The faults of our own house. Trouble in a note is never one of these: it is a value in the outcome."""

from __future__ import annotations


class NotesparseError(Exception):
    """Anything that stops the program and is to be told to a person in one sentence."""


class VocabularyError(NotesparseError):
    """A file of `grammar/words` contradicts itself; the message names file, line and spelling."""


class GrammarError(NotesparseError):
    """The `.lark` files do not make one grammar."""


class InputError(NotesparseError):
    """A note or a table that cannot be read at all: binary, empty, too large, wrong columns."""


class RecordError(NotesparseError):
    """A record that breaks the contract."""
