"""The launcher without a browser: what it says when it cannot open, whom it answers, and that it leaves nothing."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

COMMAND = [sys.executable, "-m", "explorer", "--no-browser"]
linux = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="looks into /proc")


@pytest.fixture
def place(tmp_path: Path) -> dict[str, str]:
    """An environment whose temporary folder is the test's own."""
    (tmp_path / "tmp").mkdir()
    return {**os.environ, "TMPDIR": str(tmp_path / "tmp"), "COLUMNS": "120"}


@pytest.fixture
def csv(tmp_path: Path) -> Path:
    path = tmp_path / "my snakes, 'kept' ü.csv"
    path.write_text("id,name\n", encoding="utf-8")
    return path


@pytest.fixture
def taken_port() -> Iterator[int]:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


def fails(arguments: list[str], place: dict[str, str]) -> str:
    done = subprocess.run([*COMMAND, *arguments], env=place, capture_output=True, text=True, timeout=120)
    assert done.returncode == 2, done.stdout + done.stderr
    assert done.stdout == ""
    assert list(Path(place["TMPDIR"]).iterdir()) == []
    return done.stderr


def test_error__file_not_found(place: dict[str, str], tmp_path: Path) -> None:
    assert fails(["nowhere.csv"], place) == (
        f"pairing-explorer: there is no file {Path.cwd() / 'nowhere.csv'}. "
        "Check the name, or leave it out to open the demo collection.\n"
    )


def test_error__folder_given(place: dict[str, str], tmp_path: Path) -> None:
    assert f"{tmp_path} is a folder. Give the collection file in it" in fails([str(tmp_path)], place)


def test_error__port_taken(place: dict[str, str], csv: Path, taken_port: int) -> None:
    said = fails([str(csv), "--port", str(taken_port)], place)
    assert said.startswith(f"pairing-explorer: port {taken_port} cannot be used (")
    assert "Give another with --port, or leave --port out for any free one." in said


def test_error__no_such_port(place: dict[str, str], csv: Path) -> None:
    assert "there is no port 70000; ports go from 1 to 65535." in fails([str(csv), "--port", "70000"], place)


def test_error__jupyterlab_does_not_start(place: dict[str, str], csv: Path, tmp_path: Path) -> None:
    (tmp_path / "broken").mkdir()
    (tmp_path / "broken" / "jupyterlab.py").write_text("raise SystemExit('no JupyterLab today')", encoding="utf-8")
    said = fails([str(csv)], {**place, "PYTHONPATH": str(tmp_path / "broken")})
    assert said.splitlines()[0] == "pairing-explorer: JupyterLab ended with status 1 instead of starting. It said last:"
    assert said.splitlines()[-1] == "  no JupyterLab today"


@contextmanager
def launched(csv: Path, place: dict[str, str]) -> Iterator[subprocess.Popen[str]]:
    with subprocess.Popen([*COMMAND, str(csv)], env=place, stdout=subprocess.PIPE, text=True) as launcher:
        try:
            yield launcher
        finally:
            launcher.terminate()


def line(launcher: subprocess.Popen[str]) -> str:
    assert launcher.stdout is not None
    return launcher.stdout.readline()


@linux
@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_ending__leaves_no_process_and_no_folder(place: dict[str, str], csv: Path, how: signal.Signals) -> None:
    with launched(csv, place) as launcher:
        assert re.fullmatch(
            r"Pairing workbench: http://127\.0\.0\.1:\d+/lab/tree/workbench\.ipynb\?token=\S+\n", line(launcher)
        )
        assert line(launcher) == "If no browser opens, copy that address into one. Ctrl-C here closes the workbench.\n"
        wait_for_kernel(place["TMPDIR"])
        launcher.send_signal(how)
        time.sleep(0.4)
        launcher.send_signal(how)  # an impatient second one changes nothing
        assert launcher.wait(60) == 0
        assert line(launcher) == "Workbench closed.\n"
    assert processes_in(place["TMPDIR"]) == []
    assert list(Path(place["TMPDIR"]).iterdir()) == []
    assert csv.read_text(encoding="utf-8") == "id,name\n"


@linux
def test_server__asks_for_the_token_and_shows_the_notebook_only(place: dict[str, str], csv: Path) -> None:
    with launched(csv, place) as launcher:
        base, token = re.findall(r"(http://[^/]+)/.*token=(\S+)", line(launcher))[0]
        with pytest.raises(urllib.error.HTTPError, match="403") as refused:
            urllib.request.urlopen(f"{base}/api/contents", timeout=30)
        refused.value.close()
        assert {entry["name"] for entry in ask(base, token, "")["content"]} == {"workbench.ipynb"}
        cell = ask(base, token, "/workbench.ipynb")["content"]["cells"][0]
        assert f"open_workbench({str(csv)!r})" in cell["source"]


def ask(base: str, token: str, path: str) -> Any:
    request = urllib.request.Request(f"{base}/api/contents{path}", headers={"Authorization": f"token {token}"})
    with urllib.request.urlopen(request, timeout=30) as answer:
        return json.load(answer)


def wait_for_kernel(folder: str) -> None:
    patience = time.monotonic() + 90
    while not any("ipykernel" in line for line in processes_in(folder)):
        assert time.monotonic() < patience, "the launcher started no kernel"
        time.sleep(0.2)


def processes_in(folder: str) -> list[str]:
    """The command lines of the running processes that name this folder."""
    found = []
    for path in Path("/proc").glob("[0-9]*/cmdline"):
        try:
            line = path.read_text(encoding="utf-8", errors="replace").replace("\0", " ")
        except OSError:
            continue
        if folder in line and "/proc" not in line:
            found.append(line)
    return found
