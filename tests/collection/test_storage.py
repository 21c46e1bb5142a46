"""Writing: in one step, with a backup at every save, and never over somebody else's change."""

from __future__ import annotations

import os
from datetime import datetime
from pathlib import Path

import pytest

from explorer.collection import Collection, CollectionError, SaveRefused, read_collection
from explorer.collection.storage import digest, read_text, read_text_if_any, write_text

TEXT = "id,sex,genes\nF01,f,Pastel\n"
NOW = datetime(2026, 11, 25, 10, 15)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "my.csv"
    path.write_text(TEXT)
    return path


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_save_leaves_a_dated_backup(file: Path) -> None:
    animals = read_collection(file).with_animal({"id": "F02", "sex": "m", "genes": "Enchi"})
    backup = animals.save(file, now=NOW)
    assert backup == file.with_name("my.2026-11-25T101500.bak.csv")
    assert backup.read_text() == TEXT
    assert file.read_text() == f"{TEXT}F02,m,Enchi\n"


def test_a_backup_is_never_overwritten(file: Path) -> None:
    animals = read_collection(file)
    for i in range(3):
        animals = animals.with_animal({"id": f"N{i}", "sex": "m", "genes": "Enchi"})
        animals.save(file, now=NOW)
    backups = ["my.2026-11-25T101500-2.bak.csv", "my.2026-11-25T101500-3.bak.csv", "my.2026-11-25T101500.bak.csv"]
    assert names(file.parent) == [*backups, "my.csv"]
    assert file.with_name(backups[2]).read_text() == TEXT


def test_the_clock_names_the_backup_by_default(file: Path) -> None:
    backup = read_collection(file).save(file)
    assert backup is not None
    assert datetime.strptime(backup.name, "my.%Y-%m-%dT%H%M%S.bak.csv").year >= 2026


def test_a_new_file_needs_no_backup(file: Path) -> None:
    other = file.with_name("other.csv")
    assert read_collection(file).save(other) is None
    assert other.read_text() == TEXT
    assert Collection.from_text(TEXT).save(str(file.with_name("third.csv"))) is None
    assert names(file.parent) == ["my.csv", "other.csv", "third.csv"]


def test_a_change_from_outside_is_not_overwritten_unasked(file: Path) -> None:
    animals = read_collection(file)
    file.write_text(f"{TEXT}F09,f,Clown\n")
    with pytest.raises(SaveRefused, match=r"my.csv was changed by another program since it was read. Open it again"):
        animals.save(file)
    assert names(file.parent) == ["my.csv"]
    backup = animals.save(file, overwrite=True)
    assert backup is not None
    assert backup.read_text() == f"{TEXT}F09,f,Clown\n"
    assert file.read_text() == TEXT
    animals.save(file)


def test_permissions_and_links_are_kept(file: Path) -> None:
    file.chmod(0o640)
    link = file.with_name("link.csv")
    link.symlink_to(file)
    read_collection(link).with_animal({"id": "F02", "genes": "Enchi"}).save(link, now=NOW)
    assert link.is_symlink()
    assert "F02" in file.read_text()
    assert file.stat().st_mode & 0o777 == 0o640
    assert names(file.parent) == ["link.csv", "my.2026-11-25T101500.bak.csv", "my.csv"]


def test_a_folder_that_is_not_there(file: Path) -> None:
    with pytest.raises(SaveRefused, match=r"cannot be written .*Check that the folder exists"):
        read_collection(file).save(file.parent / "gone" / "my.csv")


def test_a_failed_write_leaves_the_file_as_it_was(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    animals = read_collection(file).with_animal({"id": "F02", "genes": "Enchi"})
    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(SaveRefused, match="No space left on device"):
        animals.save(file)
    assert file.read_text() == TEXT
    assert names(file.parent) == ["my.csv"]


def test_taking_a_file_away_keeps_a_backup_and_spares_a_change_from_outside(file: Path) -> None:
    seen = digest(TEXT)
    file.write_text(f"{TEXT}F09,f,Clown\n")
    with pytest.raises(SaveRefused, match="changed by another program"):
        write_text(file, None, seen=seen)
    assert names(file.parent) == ["my.csv"]
    file.write_text(TEXT)
    backup = write_text(file, None, seen=seen, now=NOW)
    assert backup is not None and backup.read_text() == TEXT
    assert names(file.parent) == ["my.2026-11-25T101500.bak.csv"]
    assert write_text(file, None, seen=seen) is None, "there is nothing left to take away"


def test_what_can_be_made_again_needs_no_backup(file: Path) -> None:
    assert write_text(file, "new", needless=lambda text: text == TEXT) is None
    assert names(file.parent) == ["my.csv"] and file.read_text() == "new"
    file.write_bytes(b"\xff")
    backup = write_text(file, "newer", needless=lambda text: text == "new", now=NOW)
    assert backup is not None and backup.read_bytes() == b"\xff"


def test_nothing_in_a_file_is_not_no_file(file: Path) -> None:
    assert read_text_if_any(file) == TEXT
    file.write_bytes(b"")
    assert read_text_if_any(file) == ""
    file.unlink()
    assert read_text_if_any(file) is None


@pytest.mark.parametrize(
    ("name", "content", "said"),
    [
        ("my.csv", b"", "1 error in my.csv\nan empty file"),
        ("my.csv", b"PK\x03\x04", "1 error in my.csv\na spreadsheet workbook"),
        ("my.csv", b"id\0", "1 error in my.csv\nrow 1: a zero byte"),
        ("my.csv", b"\xff\xfei", "1 error in my.csv\ntext in UTF-16"),
        ("my.csv", b"id,\xe9", "1 error in my.csv\nrow 1: a byte that is not UTF-8"),
        ("gone.csv", b"", "1 error in gone.csv\nthere is no file "),
    ],
)
def test_a_file_that_cannot_be_read_is_named(file: Path, name: str, content: bytes, said: str) -> None:
    file.write_bytes(content)
    with pytest.raises(CollectionError) as caught:
        read_text(file.with_name(name))
    assert str(caught.value).startswith(said)


def test_a_file_that_is_not_written_is_named(file: Path) -> None:
    with pytest.raises(SaveRefused, match=r"\A1 error in my.csv\nmy.csv was changed"):
        write_text(file, "x", seen="")
    with pytest.raises(SaveRefused, match=r"\A1 error in there.csv\n"):
        write_text(file.parent / "gone" / "there.csv", "x")
