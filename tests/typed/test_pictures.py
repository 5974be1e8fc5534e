"""Pictures that are none, broken, too small, too large, or turned: a sentence for each, and no traceback."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest

from notesparse.errors import InputError
from notesparse.record.store import load

pytest.importorskip("PIL")
numpy = pytest.importorskip("numpy")
pytest.importorskip("scipy")
pytest.importorskip("pytesseract")

from PIL import Image  # noqa: E402

from notesparse.typed import picture, recognise  # noqa: E402
from notesparse.typed.picture import pages_of  # noqa: E402


def data(image: Image.Image, form: str = "PNG", **how: object) -> bytes:
    out = io.BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


def png_of(width: int, height: int) -> bytes:
    """A PNG whose head promises so many pixels, and that holds next to none."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 64)) + chunk(b"IEND", b"")


GREY = Image.effect_noise((300, 200), 40)


@pytest.mark.parametrize(
    ("what", "told"),
    [
        (b"", "the file is empty"),
        (b"not a picture at all", "is no picture that can be opened"),
        (b"%PDF-1.7 and so on", "is no picture that can be opened"),
        (data(GREY)[:2000], "damaged or cut short"),
        (data(GREY, "JPEG")[:900], "damaged or cut short"),
        (data(GREY, "TIFF")[:3000], "damaged or cut short"),
        (data(GREY, "BMP")[:3000], "damaged or cut short"),
        (data(Image.new("L", (1, 1))), "1 by 1 pixels, too small"),
        (data(Image.new("L", (3000, 12))), "3000 by 12 pixels, too small"),
        (png_of(12_000, 12_000), "more than 120 million pixels"),
        (png_of(60_000, 60_000), "more than 120 million pixels"),
        (data(GREY, "GIF"), "is no picture that can be opened"),
    ],
)
def test_a_bad_picture_is_told_in_one_sentence(what: bytes, told: str) -> None:
    with pytest.raises(InputError, match=told) as fault:
        pages_of(what, "page.png")
    assert str(fault.value).startswith("page.png: ") and "\n" not in str(fault.value)


def test_too_many_pages_and_too_many_bytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    many = data(GREY, "TIFF", save_all=True, append_images=[GREY] * picture.MOST_PAGES)
    with pytest.raises(InputError, match="has 41 pages"):
        pages_of(many, "many.tif")
    monkeypatch.setattr("notesparse.record.store.LARGEST_PICTURE", 1000)
    path = tmp_path / "large.png"
    path.write_bytes(data(GREY))
    with pytest.raises(InputError, match="larger than"):
        load(str(path))


def test_every_kind_and_depth_gives_the_same_page() -> None:
    page = Image.new("L", (120, 80), 255)
    page.paste(0, (20, 20, 100, 30))
    clear = Image.new("RGBA", page.size, (0, 0, 0, 0))
    clear.paste((0, 0, 0, 255), (20, 20, 100, 30))
    deep = Image.fromarray(numpy.asarray(page).astype(numpy.uint16) * 257)
    kinds = [
        data(page),
        data(page, "BMP"),
        data(page, "TIFF"),
        data(page, "WEBP", lossless=True),
        data(page, "JPEG", quality=95),
    ]
    kinds += [
        data(clear),
        data(deep),
        data(page.convert("1")),
        data(page.convert("P")),
        data(page.convert("CMYK"), "TIFF"),
    ]
    want = numpy.asarray(page).astype(int)
    for kind in kinds:
        (grey,) = pages_of(kind, "page")
        assert grey.dtype == numpy.uint8 and grey.shape == want.shape
        assert abs(grey.astype(int) - want).mean() < 3


def test_a_telephone_held_sideways_is_set_upright() -> None:
    page = Image.new("L", (120, 80), 255)
    page.paste(0, (0, 0, 60, 20))
    exif = Image.Exif()
    exif[0x0112] = 6  # to be turned a quarter, says the camera
    (grey,) = pages_of(data(page.rotate(90, expand=True), "JPEG", exif=exif, quality=95), "page.jpg")
    assert grey.shape == (80, 120) and grey[:18, :58].mean() < 20 and grey[40:].mean() > 240


def test_without_tesseract_it_is_said_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    import pytesseract

    monkeypatch.setattr(pytesseract.pytesseract, "tesseract_cmd", "no-such-program-here")
    with pytest.raises(InputError, match="apt-get install tesseract-ocr"):
        recognise.recogniser()


def test_without_the_libraries_it_is_said_what_to_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    import sys

    monkeypatch.setitem(sys.modules, "pytesseract", None)
    path = tmp_path / "page.png"
    path.write_bytes(data(GREY))
    with pytest.raises(InputError, match=r'pip install "notesparse\[ocr\]"'):
        load(str(path))


def test_a_picture_under_a_text_name_is_told(tmp_path: Path) -> None:
    path = tmp_path / "note.txt"
    path.write_bytes(data(GREY))
    with pytest.raises(InputError, match="is a picture; save it as plain text"):
        load(str(path))
