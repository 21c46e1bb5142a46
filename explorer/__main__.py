"""Open the workbench: one JupyterLab on loopback, one notebook, one collection file. No other module starts a process.

Every launch has a folder of its own, away from the user's Jupyter settings, and takes it away at the end. The notebook
is a copy in that folder, so that JupyterLab's autosave never changes the original. The collection file is not copied:
the path written into the notebook's one cell points to where the file lies.
"""

import argparse
import contextlib
import json
import os
import secrets
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import threading
import time
import urllib.error
import urllib.request
import webbrowser
from collections.abc import Callable, Sequence
from pathlib import Path
from types import FrameType
from typing import Any

__all__ = ["LaunchError", "main"]

PACKAGE = Path(__file__).resolve().parent
LAB_EXTENSION = PACKAGE / "lab_extension"
CHECKOUT = PACKAGE.parent if (PACKAGE.parent / "pyproject.toml").is_file() else None
FILES = {"workbench.ipynb": "notebooks/workbench.ipynb", "demo_collection.csv": "demo_collection.csv"}
NOTEBOOK = "workbench.ipynb"
OPEN_CALL = "open_workbench()"
HOST = "127.0.0.1"
SECONDS_TO_START = 120.0
SECONDS_TO_STOP = 15.0


class LaunchError(Exception):
    """The workbench cannot be opened; the message says what is wrong and what to do, in one or a few lines."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Open the workbench and stay until it is closed. Returns the exit status: 0, or 2 if it could not be opened."""
    options = _parser().parse_args(arguments)
    _on_signals(_interrupt)
    folder = Path(tempfile.mkdtemp(prefix="pairing-explorer-"))
    try:
        collection = _collection(options.collection, folder)
        port = _port(options.port)
        _prepare(folder, collection)
        _serve(folder, port, browser=not options.no_browser)
    except LaunchError as error:
        print(f"pairing-explorer: {error}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print("Workbench closed.", flush=True)
    finally:
        _tidy(folder)
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="pairing-explorer", description="Open the pairing workbench in JupyterLab on a collection file."
    )
    parser.add_argument(
        "collection", nargs="?", metavar="my.csv", help="your collection file (default: the demo collection)"
    )
    parser.add_argument("--port", type=int, default=0, help="the port on this computer (default: any free one)")
    parser.add_argument("--no-browser", action="store_true", help="print the address, open no browser")
    return parser


def _on_signals(action: Callable[[int, FrameType | None], None] | signal.Handlers) -> None:
    """What Ctrl-C, the end of the session and a polite kill do from now on."""
    for name in ("SIGINT", "SIGTERM", "SIGHUP"):
        if hasattr(signal, name):  # Windows has no SIGHUP
            signal.signal(getattr(signal, name), action)


def _interrupt(number: int, frame: FrameType | None) -> None:
    raise KeyboardInterrupt


def _bundled(name: str) -> Path:
    """A file that comes with the project: at its place in a checkout, inside the package in an installed copy."""
    return CHECKOUT / FILES[name] if CHECKOUT else PACKAGE / "bundled" / name


def _collection(given: str | None, folder: Path) -> Path:
    """The absolute path of the collection file to open. An installed copy's demo is copied first, to leave it whole."""
    if given is None:
        demo = _bundled("demo_collection.csv")
        if not demo.is_file():
            raise LaunchError(
                f"the demo collection {demo} is missing. Give a file of your own: pairing-explorer my.csv"
            )
        if CHECKOUT:
            return demo
        print("This is a copy of the demo collection; what you save in it goes when the workbench closes.", flush=True)
        return Path(shutil.copy(demo, folder / demo.name))
    path = Path(given).expanduser().absolute()
    if path.is_dir():
        raise LaunchError(f"{path} is a folder. Give the collection file in it: pairing-explorer {given}/my.csv")
    if not path.is_file():
        raise LaunchError(f"there is no file {path}. Check the name, or leave it out to open the demo collection.")
    return path


def _port(wanted: int) -> int:
    """The port to use: the one asked for, if nothing else has it, or any free one for 0."""
    try:
        with socket.socket() as probe:
            if os.name == "posix":
                probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            probe.bind((HOST, wanted))
            return int(probe.getsockname()[1])
    except OverflowError:
        raise LaunchError(f"there is no port {wanted}; ports go from 1 to 65535. Leave --port out for any.") from None
    except OSError as error:
        raise LaunchError(
            f"port {wanted} cannot be used ({error.strerror}); another program may have it. "
            "Give another with --port, or leave --port out for any free one."
        ) from None


def _prepare(folder: Path, collection: Path) -> None:
    """Fill the launch folder: the notebook with this collection's path, and the kernel that is to run it."""
    for name in ("notebook", "kernels/kernels/python3"):
        (folder / name).mkdir(parents=True)
    notebook = _read_json(_bundled(NOTEBOOK))
    for cell in notebook["cells"]:
        call = f"open_workbench({str(collection)!r})"
        cell["source"] = "".join(cell["source"]).replace(OPEN_CALL, call)
    _write_json(folder / "notebook" / NOTEBOOK, notebook)
    # The kernel imports before the page asks for anything, and works where the collection lies: exports land beside it.
    at_start = f"import os, explorer.panels; os.chdir({str(collection.parent)!r})"
    paths = [str(CHECKOUT or ""), os.environ.get("PYTHONPATH", "")]
    command = [sys.executable, "-m", "ipykernel_launcher", "-f", "{connection_file}"]
    _write_json(
        folder / "kernels/kernels/python3/kernel.json",
        {
            "argv": [*command, f"--IPKernelApp.exec_lines={at_start}"],
            "display_name": "Python 3",
            "language": "python",
            "env": {"PYTHONPATH": os.pathsep.join(filter(None, paths))} if any(paths) else {},
        },
    )


def _read_json(path: Path) -> Any:
    return json.loads(path.read_text(encoding="utf-8"))


def _write_json(path: Path, content: object) -> None:
    path.write_text(json.dumps(content, indent=1), encoding="utf-8")


def _command(folder: Path, port: int) -> list[str]:
    command = [
        *(sys.executable, "-m", "jupyterlab", "--no-browser", f"--ip={HOST}", f"--port={port}"),
        "--ServerApp.port_retries=0",
        f"--ServerApp.root_dir={folder / 'notebook'}",
        f"--LabApp.default_url=/lab/tree/{NOTEBOOK}",
        f"--LabApp.extra_labextensions_path={LAB_EXTENSION}",
        f"--LabApp.user_settings_dir={folder / 'settings'}",
        f"--LabApp.workspaces_dir={folder / 'workspaces'}",
        "--LabApp.extension_manager=readonly",
        "--LabApp.news_url=None",
        "--LabApp.check_for_updates_class=jupyterlab.NeverCheckForUpdate",
    ]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        command.append("--allow-root")
    return command


def _serve(folder: Path, port: int, *, browser: bool) -> None:
    """Run JupyterLab until it ends or this process is interrupted."""
    server = _Server(f"http://{HOST}:{port}", secrets.token_urlsafe(24))
    environment = {
        **os.environ,
        "JUPYTER_TOKEN": server.token,
        "JUPYTER_CONFIG_PATH": str(LAB_EXTENSION / "config"),
        "JUPYTER_CONFIG_DIR": str(folder / "config"),
        "JUPYTER_DATA_DIR": str(folder / "data"),
        "JUPYTER_RUNTIME_DIR": str(folder / "runtime"),
        "JUPYTER_PATH": os.pathsep.join(filter(None, [str(folder / "kernels"), os.environ.get("JUPYTER_PATH")])),
        "IPYTHONDIR": str(folder / "ipython"),
    }
    log = folder / "jupyterlab.log"
    with log.open("wb") as output:
        process = subprocess.Popen(
            _command(folder, port),
            env=environment,
            stdin=subprocess.DEVNULL,
            stdout=output,
            stderr=subprocess.STDOUT,
            start_new_session=True,  # Ctrl-C reaches this process alone, which then closes JupyterLab in good order
        )
    try:
        server.wait_for(process, log)
        threading.Thread(target=server.start_kernel, daemon=True).start()
        address = f"{server.base}/lab/tree/{NOTEBOOK}?token={server.token}"
        print(f"Pairing workbench: {address}", flush=True)
        print("If no browser opens, copy that address into one. Ctrl-C here closes the workbench.", flush=True)
        if browser:
            threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
        while process.poll() is None:
            time.sleep(0.2)  # unlike process.wait(), this can be interrupted on every system
    finally:
        _on_signals(signal.SIG_IGN)  # a second Ctrl-C must not leave JupyterLab behind
        server.stop(process)


class _Server:
    """A running JupyterLab, spoken to over its REST interface."""

    def __init__(self, base: str, token: str) -> None:
        self.base = base
        self.token = token
        self._opener = urllib.request.build_opener(urllib.request.ProxyHandler({}))  # loopback never goes by a proxy

    def call(self, method: str, path: str, content: object = None, *, seconds: float = 5.0) -> None:
        request = urllib.request.Request(
            self.base + path,
            method=method,
            data=None if content is None else json.dumps(content).encode(),
            headers={"Authorization": f"token {self.token}", "Content-Type": "application/json"},
        )
        self._opener.open(request, timeout=seconds).close()

    def wait_for(self, process: subprocess.Popen[bytes], log: Path) -> None:
        """Return when the server answers; LaunchError with the end of its log if it ends or stays silent."""
        patience = time.monotonic() + SECONDS_TO_START
        while time.monotonic() < patience and process.poll() is None:
            try:
                return self.call("GET", "/api/status")
            except OSError:
                time.sleep(0.05)
        said = log.read_text(encoding="utf-8", errors="replace").strip().splitlines()[-12:]
        state = "gave no answer" if process.poll() is None else f"ended with status {process.returncode}"
        raise LaunchError("\n  ".join([f"JupyterLab {state} instead of starting. It said last:", *said]))

    def start_kernel(self) -> None:
        """Start the notebook's kernel, and with it the imports, while the browser is still loading the page."""
        session = {"path": NOTEBOOK, "name": NOTEBOOK, "type": "notebook", "kernel": {"name": "python3"}}
        with contextlib.suppress(OSError):  # without it the page starts the kernel itself, only later
            self.call("POST", "/api/sessions", session, seconds=60.0)

    def stop(self, process: subprocess.Popen[bytes]) -> None:
        """End the server and its kernels: by asking, then by signal."""
        try:
            if process.poll() is None:
                self.call("POST", "/api/shutdown")
                process.wait(SECONDS_TO_STOP)
        except (OSError, subprocess.TimeoutExpired):
            process.terminate()
            try:
                process.wait(SECONDS_TO_STOP)
            except subprocess.TimeoutExpired:
                process.kill()


def _tidy(folder: Path) -> None:
    """Take the launch folder away, unless the user wrote cells of their own into the notebook."""
    copy = folder / "notebook" / NOTEBOOK
    if copy.is_file() and len(_read_json(copy)["cells"]) > len(_read_json(_bundled(NOTEBOOK))["cells"]):
        print(f"You added cells to the notebook; it is kept here: {copy}", flush=True)
    else:
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    sys.exit(main())
