"""The front door shows what users call and nothing else, and stays light until a screen is asked for."""

import json
import subprocess
import sys
from types import ModuleType

import explorer

ERRORS = {
    *("UnreadableGenes", "ImpossibleGenes", "AmbiguousGenes", "GenesError"),
    *("CollectionError", "UnreachableTarget"),
}
CALLS = {
    *("load_catalogue", "read_genes", "write_genes", "cross", "read_collection", "Husbandry", "find_paths"),
    *("open_workbench", "stack", "sketch", "identify", "read_clutches", "line_up", "allot", "season_dates"),
}
ROOMS_WITHOUT_SCREEN = ["catalogue", "genetics", "notation", "looks", "collection", "husbandry", "pairing", "planner"]
SCREEN_LIBRARIES = ["plotly", "ipywidgets", "anywidget", "traitlets", "IPython"]


def test_names__are_those_agreed() -> None:
    assert set(explorer.__all__) == CALLS | ERRORS
    assert len(explorer.__all__) == len(set(explorer.__all__))


def test_names__star_import_gives_exactly_all() -> None:
    seen: dict[str, object] = {}
    exec("from explorer import *", seen)
    assert set(seen) - {"__builtins__"} == set(explorer.__all__)


def test_names__nothing_else_shows() -> None:
    shown = {name for name, value in vars(explorer).items() if not isinstance(value, ModuleType)}
    assert {name for name in shown if not name.startswith("_")} <= set(explorer.__all__)
    assert set(explorer.__all__) <= set(dir(explorer))


def test_names__all_but_the_errors_are_called_and_explained() -> None:
    for name in CALLS:
        thing = getattr(explorer, name)
        assert callable(thing), name
        assert thing.__doc__, f"{name} has no docstring"


def test_errors__have_one_base_and_are_exceptions() -> None:
    for name in ("UnreadableGenes", "ImpossibleGenes", "AmbiguousGenes"):
        assert issubclass(getattr(explorer, name), explorer.GenesError), name
    for name in ERRORS:
        assert issubclass(getattr(explorer, name), Exception), name


def test_names__unknown_one_is_an_attribute_error() -> None:
    assert not hasattr(explorer, "no_such_name")


def test_import__loads_no_screen_library() -> None:
    assert _loaded_after("import explorer") == []


def test_import__the_rooms_without_a_screen_load_no_screen_library() -> None:
    walk = f"""
import importlib, pkgutil, explorer
for room in {ROOMS_WITHOUT_SCREEN!r}:
    package = importlib.import_module("explorer." + room)
    for module in pkgutil.walk_packages(package.__path__, package.__name__ + "."):
        importlib.import_module(module.name)
"""
    assert _loaded_after(walk) == []


def test_import__this_check_can_fail() -> None:
    assert _loaded_after("import traitlets") == ["traitlets"]


def test_use__odds_and_reading_load_no_screen_library() -> None:
    code = "import explorer as ex; ex.write_genes(ex.read_genes('Pastel')); ex.cross('Pastel', 'Pastel').looks()"
    assert _loaded_after(code) == []


def _loaded_after(code: str) -> list[str]:
    """The screen libraries that a fresh Python has loaded once it has run the code."""
    report = f"\nimport json, sys\nprint(json.dumps([name for name in {SCREEN_LIBRARIES!r} if name in sys.modules]))"
    done = subprocess.run([sys.executable, "-c", code + report], capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    found: list[str] = json.loads(done.stdout.splitlines()[-1])
    return found
