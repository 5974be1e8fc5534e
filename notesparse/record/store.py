"""Note files in, results out: how bytes become a note, and writing a file whole or not at all."""

from __future__ import annotations

import codecs
import datetime
import hashlib
import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any, TextIO

from notesparse.errors import InputError
from notesparse.lazy import dataclass, pattern
from notesparse.outcome import Doubt

LARGEST = 10_000_000
"""The most bytes that a note may have. A day's walk is a few thousand."""

LARGEST_PICTURE = 60_000_000
"""The most bytes that a picture of a typed page may have: 8.5 by 11 in at 400 dots an inch in colour, not packed, has
45 million."""

_MARKS = (  # the longer mark first: the UTF-32 one begins with the UTF-16 one
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)

_OTHER_KINDS = (
    (b"PK\x03\x04", "a word processor's or spreadsheet's file"),
    (b"\xd0\xcf\x11\xe0", "a word processor's or spreadsheet's file"),
    (b"{\\rtf", "a formatted document"),
    (b"%PDF-", "a PDF"),
    (b"\xff\xd8\xff", "a picture"),
    (b"\x89PNG", "a picture"),
)

PICTURES: tuple[str, ...] = (".png", ".jpg", ".jpeg", ".tif", ".tiff", ".bmp", ".webp")
"""The file names of pictures of typed pages. A folder is not searched for them: it may hold photographs of plants."""

_DATED = pattern(r"(\d{4}-\d{2}-\d{2})(?!\d)")


@dataclass(frozen=True, slots=True)
class NoteFile:
    """A note before it is read. `guessed` names the encoding where nothing in the file told it."""

    text: str
    source: str
    sha256: str
    date: str | None
    guessed: str | None = None
    doubts: tuple[Doubt, ...] = ()  # words that the recogniser of a page was not sure of
    typed: Mapping[str, Any] | None = None  # how a page was read, where the note is a picture of one


def load(path: str, what: str = "note") -> NoteFile:
    """The note in a file; its date is the ISO date that the file's name begins with. Raises `InputError`.

    A picture of a typed page is a note: what is recognised on it. `what` is what the file should be, where it is not
    a note: the sentences of a fault name it.
    """
    page = what == "note" and path.lower().endswith(PICTURES)
    try:
        if Path(path).is_dir():
            raise InputError(f"{path}: is a folder, not a {what}.")
        with open(path, "rb") as file:
            data = file.read((LARGEST_PICTURE if page else LARGEST) + 1)
    except FileNotFoundError:
        raise InputError(f"{path}: there is no such file.") from None
    except PermissionError:
        raise InputError(f"{path}: this file may not be read; check its permissions.") from None
    except (OSError, ValueError) as fault:  # ValueError: a name with a NUL in it
        raise InputError(f"{path}: cannot be read ({getattr(fault, 'strerror', None) or fault}).") from None
    if page:
        return from_picture(data, path, date_in_name(path))
    return from_bytes(data, path, date_in_name(path), what)


def from_picture(data: bytes, source: str, date: str | None = None) -> NoteFile:
    """The note on a picture of a typed page. Raises `InputError` where it cannot be read safely."""
    from notesparse.typed.page import read_typed

    if len(data) > LARGEST_PICTURE:
        raise InputError(
            f"{source}: larger than {LARGEST_PICTURE // 1_000_000} MB; save the picture smaller, at 300 dots an inch."
        )
    page = read_typed(data, source)
    return NoteFile(page.text, source, hashlib.sha256(data).hexdigest(), date, None, page.doubts, page.about)


def from_bytes(data: bytes, source: str, date: str | None = None, what: str = "note") -> NoteFile:
    """The note in `data`. Raises `InputError`, with what to do, where there is none."""
    name = "standard input" if source == "-" else source
    if len(data) > LARGEST:
        raise InputError(
            f"{name}: larger than {LARGEST // 1_000_000} MB, too large for a {what}; "
            f"give each {what} a file of its own."
        )
    for start, kind in _OTHER_KINDS:
        if data.startswith(start):
            plain = "plain text (.txt)" if what == "note" else "CSV (.csv)"
            if kind == "a picture" and what == "note":
                plain += ", or, if it shows a typed page, under a name that ends in .png or .jpg,"
            raise InputError(f"{name}: is {kind}; save it as {plain} and give that.")
    text, encoding = _decode(data, name)
    if "\0" in text or _mostly_controls(text):
        raise InputError(f"{name}: is not plain text; save the {what} as plain text in UTF-8 and give that.")
    if not text.strip("\ufeff \t\r\n\f\v\u00a0"):
        raise InputError(f"{name}: there is no {what} in it, the {'input' if source == '-' else 'file'} is empty.")
    guessed = encoding if encoding in ("cp1252", "latin-1") else None
    return NoteFile(text, source, hashlib.sha256(data).hexdigest(), date, guessed)


def _decode(data: bytes, name: str) -> tuple[str, str]:
    """The text without its byte-order mark, line ends untouched: by the mark, else UTF-8, cp1252, Latin-1."""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            try:
                return data.decode(encoding), encoding
            except UnicodeDecodeError:
                raise InputError(
                    f"{name}: begins as {encoding.upper()} text and goes on as something else; "
                    "save the note again as plain text in UTF-8."
                ) from None
    for encoding in ("utf-8", "cp1252"):
        try:
            return data.decode(encoding), encoding
        except UnicodeDecodeError:
            continue
    return data.decode("latin-1"), "latin-1"


def _mostly_controls(text: str) -> bool:
    """Whether more than two, and more than one in twenty, are control characters that no note holds."""
    odd = sum(1 for c in text if (c < " " and c not in "\t\r\n\f\v\x1b") or "\x7f" <= c <= "\x9f")
    return odd > 2 and odd * 20 > len(text)


def date_in_name(path: str) -> str | None:
    """The ISO date that a file's name begins with, if it is one."""
    found = _DATED.match(Path(path).name)
    if not found:
        return None
    try:
        return datetime.date.fromisoformat(found[1]).isoformat()
    except ValueError:
        return None


@contextmanager
def locked(path: str, patience: float = 20.0) -> Iterator[None]:
    """One writer at a time for a file that several people change. The lock is a hidden file beside it, so that people
    who share a folder share the lock too. Raises `InputError` after `patience` seconds."""
    from filelock import FileLock, Timeout

    target = Path(path)
    try:
        with FileLock(str(target.with_name(f".{target.name}.lock")), timeout=patience):
            yield
    except Timeout:
        raise InputError(f"{path}: another program holds this file for writing; try again in a moment.") from None
    except OSError as fault:
        raise InputError(f"{path}: cannot be written ({fault.strerror or fault}).") from None


@contextmanager
def write_whole(path: str) -> Iterator[TextIO]:
    """A file to write UTF-8 text to, line ends as written. It takes its name once all is well; else nothing is left.

    Raises `InputError` where the folder does not exist or may not be written to.
    """
    if os.path.exists(path) and not os.path.isfile(path) and not os.path.isdir(path):
        with open(path, "w", encoding="utf-8", newline="", errors="backslashreplace") as file:
            yield file  # a device or a pipe: there is nothing to swap
        return
    with swapped(path) as made, open(made, "w", encoding="utf-8", newline="", errors="backslashreplace") as file:
        yield file


@contextmanager
def swapped(path: str) -> Iterator[Path]:
    """The path of a new file beside `path`, for whatever writes to it; it takes the name `path` once all is well.

    Raises `InputError` where the folder does not exist or may not be written to.
    """
    import tempfile

    target = Path(os.path.realpath(path))  # behind a link: the file itself, so that the link stays
    folder = target.parent
    if target.is_dir():
        raise InputError(f"{path}: is a folder; name a file in it.")
    if not folder.is_dir():
        raise InputError(f"{path}: there is no folder {folder}.")
    made: Path | None = None
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", suffix=".part", dir=folder)
        os.close(handle)
        made = Path(name)
        yield made
        with open(made, "rb+") as file:
            os.fsync(file.fileno())
        os.chmod(made, _mode_of(target))
        os.replace(made, target)
        made = None
    except BrokenPipeError:
        raise
    except OSError as fault:
        raise InputError(f"{path}: cannot be written ({fault.strerror}).") from None
    finally:
        if made is not None:
            made.unlink(missing_ok=True)


def _mode_of(target: Path) -> int:
    """The permissions of the file that is replaced, or those of any new file (the temporary one is private)."""
    if target.exists():
        return target.stat().st_mode & 0o777
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask
