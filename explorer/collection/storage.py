"""The one module that touches a user's files: reading with care, and writing so that nothing can be lost."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from contextlib import suppress
from datetime import datetime
from hashlib import sha256
from itertools import count
from pathlib import Path

from .findings import CollectionError, Finding, SaveRefused, nearest

__all__ = ["LARGEST", "digest", "read_text", "read_text_if_any", "real_path", "write_text"]

LARGEST = 4_000_000
"""Bytes: the largest file that is read."""

KINDS = (
    (b"PK\x03\x04", "a spreadsheet workbook or an archive"),
    (b"\xd0\xcf\x11\xe0", "an old spreadsheet workbook"),
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"\x1f\x8b", "a compressed file"),
)
AS_UTF8 = 'open it in the program that made it and save it as "CSV UTF-8"'


def real_path(path: str | os.PathLike[str]) -> Path:
    """The file itself: "~" filled in, links followed."""
    return Path(path).expanduser().resolve()


def digest(text: str) -> str:
    """A short stand-in for a file's content, to notice whether somebody else has changed it."""
    return sha256(text.encode("utf-8")).hexdigest()


def read_text(path: str | os.PathLike[str]) -> str:
    """A file's text exactly as it is, byte-order mark and line ends included; `.encode("utf-8")` gives its bytes back.

    Raises CollectionError if it cannot be opened, is over 4 MB, empty, or not text in UTF-8.
    """
    file = real_path(path)
    try:
        size = file.stat().st_size
        if size > LARGEST:
            most, advice = f"at most {LARGEST:,} bytes", "split it, or pick another"
            raise _unreadable(file, f"a file of {size:,} bytes", most, advice)
        data = file.read_bytes()
    except FileNotFoundError:
        near = nearest(file.name, [p.name for p in file.parent.glob("*.csv")] if file.parent.is_dir() else [])
        advice = f"Nearest: {', '.join(near)}" if near else "check the name and the folder"
        raise _unreadable(file, f"there is no file {file}", "a CSV file", advice) from None
    except OSError as error:
        raise _unreadable(file, f"{file} cannot be opened ({error.strerror})", "a CSV file", "check the name") from None
    return _decoded(file, data)


def read_text_if_any(path: str | os.PathLike[str]) -> str | None:
    """As `read_text`, but "" if there is nothing in the file, and None if there is no such file."""
    file = real_path(path)
    if not file.exists():
        return None
    return read_text(file) if file.stat().st_size else ""


def write_text(
    path: str | os.PathLike[str],
    text: str | None,
    *,
    seen: str | None = None,
    overwrite: bool = False,
    now: datetime | None = None,
    needless: Callable[[str], bool] | None = None,
) -> Path | None:
    """Replaces a file's content in one step; the old content stays beside it as a dated backup, which is returned.

    text: the new content, None to take the file away. needless: whether old content can be made again, so that no
    backup is wanted of it. seen: digest of the content that the caller last read or wrote there, None if it never did.
    now: the moment that names the backup, by default this computer's clock. An earlier backup is never overwritten.
    Raises SaveRefused if the file changed since it was seen (unless `overwrite`), or cannot be written.
    """
    file = real_path(path)
    try:
        before = file.read_bytes() if file.exists() else None
        if before is not None and seen is not None and sha256(before).hexdigest() != seen and not overwrite:
            found = f"{file.name} was changed by another program since it was read"
            raise _refused(file, found, "open it again, save under another name, or choose to overwrite")
        kept = before is not None and not (needless and needless(before.decode("utf-8", "replace")))
        backup = _backup(file, before, now or datetime.now()) if before is not None and kept else None
        if text is None:
            file.unlink(missing_ok=True)
            _settle(file.parent)
        else:
            _replace(file, text.encode("utf-8"))
    except OSError as error:
        found = f"{file} cannot be written ({error.strerror})"
        advice = "check that the folder exists and may be written to; the file is as it was"
        raise _refused(file, found, advice) from error
    return backup


def _backup(file: Path, data: bytes, now: datetime) -> Path:
    stem = f"{file.stem}.{now:%Y-%m-%dT%H%M%S}"
    stems = (stem if n == 1 else f"{stem}-{n}" for n in count(1))
    draft = _new(data, _drafts(file))
    try:
        return _named(draft, (file.with_name(f"{one}.bak{file.suffix}") for one in stems))
    finally:
        draft.unlink(missing_ok=True)


def _named(draft: Path, names: Iterator[Path]) -> Path:
    """Gives a whole file the first of the names that no file has yet, in one step."""
    for name in names:
        try:
            name.hardlink_to(draft)
        except FileExistsError:
            continue
        except OSError:  # a disk without links
            if name.exists():
                continue
            draft.replace(name)
        return name
    raise AssertionError("names never end")


def _drafts(file: Path) -> Iterator[Path]:
    return (file.with_name(f".{file.name}.{os.getpid()}-{n}.tmp") for n in count(1))


def _replace(file: Path, data: bytes) -> None:
    draft = _new(data, _drafts(file))
    try:
        if file.exists():
            draft.chmod(file.stat().st_mode & 0o7777)
        draft.replace(file)
    except OSError:
        draft.unlink(missing_ok=True)
        raise
    _settle(file.parent)


def _settle(folder: Path) -> None:
    """Has the disk take up which names the folder holds."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def _new(data: bytes, names: Iterator[Path]) -> Path:
    """Writes the data to the first of the names that no file has yet."""
    for name in names:
        try:
            with name.open("xb") as out:
                out.write(data)
                out.flush()
                os.fsync(out.fileno())
        except FileExistsError:
            continue
        except OSError:
            name.unlink(missing_ok=True)
            raise
        return name
    raise AssertionError("names never end")


def _decoded(file: Path, data: bytes) -> str:
    if not data.strip(b"\xef\xbb\xbf \t\r\n"):
        raise _unreadable(file, "an empty file", "a header line and a row for each animal", "start with: id,sex,genes")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        raise _unreadable(file, "text in UTF-16", "text in UTF-8", AS_UTF8)
    for mark, kind in KINDS:
        if data.startswith(mark):
            advice = "save the sheet as CSV UTF-8 and open that"
            raise _unreadable(file, kind, "a CSV file, which is plain text", advice)
    if b"\0" in data:
        row = data[: data.index(b"\0")].count(b"\n") + 1
        raise _unreadable(file, "a zero byte, so this is no plain text", "a CSV file in UTF-8", AS_UTF8, row)
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError as error:
        row = data[: error.start].count(b"\n") + 1
        found = f"a byte that is not UTF-8 (0x{data[error.start]:02x})"
        raise _unreadable(file, found, "text in UTF-8", AS_UTF8, row) from None


def _refused(file: Path, found: str, advice: str) -> SaveRefused:
    return SaveRefused([Finding("error", None, "", found, "", advice)], file.name)


def _unreadable(file: Path, found: str, needed: str, advice: str, row: int | None = None) -> CollectionError:
    return CollectionError([Finding("error", row, "", found, needed, advice)], file.name)
