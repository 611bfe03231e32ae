"""Workbooks measured before anything parses them: no file decides how much is read of it."""

import io
import zipfile
import zlib
from typing import TypeAlias
from xml.parsers import expat

from areafit.errors import InputError
from areafit.file.text import FILE_BYTES
from areafit.pattern import pattern
from areafit.values import Frozen

_MOST_FILES = 5_000
_MOST_CELLS = 500_000
_REF = pattern(r"\$?([A-Za-z]{1,3})\$?([0-9]{1,7})")
_SPANS = frozenset({"mergeCell", "hyperlink", "comment"})
"""Elements whose `ref` names cells that are all made when it is read."""
_Ends: TypeAlias = tuple[int, int]
_FIRST, _LAST = (1, 1), (1_048_576, 16_384)


class Packed(Frozen):
    """What a workbook holds: the names of its files, and whether any cell has a formula."""

    names: tuple[str, ...]
    formulas: bool


def looked_into(data: bytes, *, whole: bool = False) -> Packed:
    """The parts of a workbook, measured.

    Args:
        data: the workbook.
        whole: it is to be read with all of its cells at once, not row by row.

    Raises:
        InputError: it is none, is too large unpacked, declares entities, or, where it is to be read
            whole, has a cell so far from the others, or so many merged, that they cannot be.
    """
    try:
        return _look(data, whole=whole)
    except InputError:
        raise
    except (zipfile.BadZipFile, zipfile.LargeZipFile, NotImplementedError, RuntimeError) as error:
        raise InputError(f"this is no workbook that can be read: {error}") from None
    except (OSError, EOFError, ValueError, zlib.error, expat.ExpatError) as error:
        raise InputError(f"this is no workbook that can be read: {error}") from None


def _look(data: bytes, *, whole: bool) -> Packed:
    formulas = False
    with zipfile.ZipFile(io.BytesIO(data)) as packed:
        inside = packed.infolist()
        if len(inside) > _MOST_FILES or sum(each.file_size for each in inside) > FILE_BYTES:
            raise InputError(
                f"this workbook unpacks to more than {FILE_BYTES // 1024 // 1024} MiB",
                "save it with nothing else in it, or as CSV",
            )
        for each in inside:
            if not each.filename.endswith((".xml", ".rels")):
                continue
            text = packed.read(each)
            formulas = formulas or (each.filename.startswith("xl/worksheets/") and b"<f" in text)
            if b"<!DOCTYPE" in text:
                raise InputError("this is no workbook: it declares entities")
            if whole:
                _measure(text)
    return Packed(tuple(each.filename for each in inside), formulas)


def _measure(text: bytes) -> None:
    """Refuse a part of a workbook whose cells are too many once those between them are made."""
    row = column = lowest = widest = spanned = 0

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal row, column, lowest, widest, spanned
        kind = name.rpartition(" ")[2]
        if kind == "row":
            row, column = int(attributes.get("r", row + 1)), 0
        elif kind == "c":
            at = _end(attributes["r"], _LAST) if "r" in attributes else (row, column + 1)
            row, column = at
            lowest, widest = max(lowest, row), max(widest, column)
        elif kind in _SPANS:
            first, _, last = attributes.get("ref", "A1").partition(":")
            (top, left), (bottom, right) = _end(first, _FIRST), _end(last or first, _LAST)
            spanned += abs(bottom - top + 1) * abs(right - left + 1)
        if lowest * widest > _MOST_CELLS or spanned > _MOST_CELLS:
            raise InputError(
                f"more than {_MOST_CELLS:,} cells are used or merged",
                "copy the answers into the workbook as it was sent",
            )

    parser = expat.ParserCreate(namespace_separator=" ")
    parser.StartElementHandler = start
    parser.Parse(text, True)  # noqa: FBT003 - of expat


def _end(reference: str, otherwise: _Ends) -> _Ends:
    """Row and column of `B7`, or those given where it is no cell: `A:A` is a whole column."""
    found = _REF.fullmatch(reference.strip())
    if found is None:
        return otherwise
    column = 0
    for letter in found[1].upper():
        column = column * 26 + ord(letter) - ord("A") + 1
    return int(found[2]), column
