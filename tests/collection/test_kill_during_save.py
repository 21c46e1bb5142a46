"""A process that is killed while it saves, at 200 moments: the files are whole, and so is every backup of them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from random import Random
from time import sleep

import explorer
from explorer.collection import Collection, read_collection
from explorer.collection.clutch_book import ClutchBook, read_clutches

KILLS = 200
LONGEST = 0.02
"""Seconds from the first save to the kill, at most; a save takes a few thousandths."""

SAVER = """
import os, sys, types
from datetime import datetime, timedelta
from itertools import count
from pathlib import Path
top, folder, start, careful = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3]), sys.argv[4] == "careful"
for name in ("explorer", "explorer.collection"):  # the room's other modules would take a second to load
    sys.modules[name] = types.ModuleType(name)
    sys.modules[name].__path__ = [str(top.joinpath(*name.split(".")))]
from explorer.collection.storage import write_text
os.fsync = lambda descriptor: None  # the wait for the disk: no matter to a kill, which would hit little else
texts = {name: [(folder / f"{name} {n}").read_text("utf-8") for n in (0, 1)] for name in ("animals", "clutches")}
for i in count():
    for name, contents in texts.items():
        file = folder / "saved" / f"{name}.csv"
        if careful:
            write_text(file, contents[i % 2], now=datetime(2026, 1, 1) + timedelta(seconds=start + i))
        else:
            file.write_text(contents[i % 2], "utf-8")
    if i == 0:
        print("saving", flush=True)
"""

LONG = "a long remark " * 4_000


def killed(folder: Path, number: int, after: float, way: str) -> None:
    """Starts a process that saves both files over and over, and kills it `after` seconds from its first save."""
    top = Path(explorer.__file__).parent.parent
    command = [sys.executable, "-I", "-S", "-c", SAVER, str(top), str(folder), str(number * 100_000), way]
    with subprocess.Popen(command, stdout=subprocess.PIPE) as saver:
        assert saver.stdout is not None
        assert saver.stdout.readline().strip() == b"saving"
        sleep(after)
        assert saver.poll() is None
        saver.kill()


def contents(folder: Path, demo: Path) -> dict[str, list[bytes]]:
    """File -> its two contents, which also lie beside the folder in which they are saved."""
    first = read_collection(demo)
    second = first.with_animal({"id": "K01", "sex": "f", "genes": "Leopard", "clutch": "C01", "notes": LONG})
    columns = "clutch,dam,sire,laid,hatched,eggs,look,sex,count,notes"
    book = ClutchBook.from_text(f"{columns}\nC01,F01,M01,2026-04-30,,6,Leopard,,4,{LONG}\n", second)
    more = book.with_clutch({"clutch": "C02", "dam": "F02", "sire": "M01"}, [{"look": "Pastel", "count": "3"}])
    found = {"animals": [first.text, second.text], "clutches": [book.text, more.text]}
    (folder / "saved").mkdir()
    for name, texts in found.items():
        for n, text in enumerate(texts):
            (folder / f"{name} {n}").write_bytes(text.encode())
    return {name: [text.encode() for text in texts] for name, texts in found.items()}


def test_no_kill_leaves_a_file_or_a_backup_in_pieces(tmp_path: Path, demo_collection: Path) -> None:
    wanted = contents(tmp_path, demo_collection)
    chance, saved = Random(200), tmp_path / "saved"
    met = {(name, n): 0 for name in wanted for n in (0, 1)}
    for number in range(KILLS):
        killed(tmp_path, number, chance.uniform(0, LONGEST), "careful")
        for name, whole in wanted.items():
            data = (saved / f"{name}.csv").read_bytes()
            assert data in whole, f"kill {number}: {name}.csv holds {len(data)} bytes"
            met[name, whole.index(data)] += 1
        for backup in saved.glob("*.bak.csv"):
            size = backup.stat().st_size
            assert backup.read_bytes() in wanted[backup.name.split(".")[0]], (
                f"kill {number}: {backup.name}, {size} bytes"
            )
            backup.unlink()
        assert sorted(path.name for path in saved.glob("*.csv")) == ["animals.csv", "clutches.csv"]
    assert all(met.values()), f"some content was never found: {met}"
    strays = [path.name for path in saved.iterdir() if path.suffix != ".csv"]
    assert strays, "no kill met a save half done"
    assert all(name.startswith(".") and name.endswith(".tmp") for name in strays)
    animals = Collection.from_text(wanted["animals"][1].decode())
    read_collection(saved / "animals.csv")
    assert read_clutches(saved / "clutches.csv", animals).clutches[0].id == "C01"


def test_a_careless_save_would_be_found_out(tmp_path: Path, demo_collection: Path) -> None:
    wanted = contents(tmp_path, demo_collection)
    chance = Random(1)
    for number in range(KILLS):
        killed(tmp_path, number, chance.uniform(0, LONGEST), "careless")
        if any((tmp_path / "saved" / f"{name}.csv").read_bytes() not in whole for name, whole in wanted.items()):
            return
    raise AssertionError(f"{KILLS} kills, and no file in pieces")
