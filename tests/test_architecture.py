"""The rules of the house hold, and each can fail: who imports whom, and where each effect on the world lives.

Every rule in `house_rules.py` is run on the package, where it must find nothing, and on small broken examples, where it
must find the one fault: a rule that cannot fail would be worth nothing.
"""

from collections.abc import Mapping
from pathlib import Path

import pytest
from house_effects import chance_has_a_seed, clock_is_read_once, files_have_one_door, libraries_are_at_home
from house_rules import (
    ROOMS,
    RULES,
    Rule,
    door_loads_screens_late,
    models_have_no_screen,
    modules_are_short,
    modules_list_what_they_offer,
    names_say_something,
    no_import_cycles,
    rooms_are_known,
    rooms_look_back_only,
)
from house_source import DOOR, LAUNCHER, Module

PACKAGE = Path(__file__).resolve().parent.parent / "explorer"

# rule, broken modules, what the one complaint must say
BROKEN: tuple[tuple[Rule, dict[str, str], str], ...] = (
    (rooms_are_known, {"extras/x.py": ""}, "stands in no room"),
    (rooms_are_known, {"loose.py": ""}, "stands in no room"),
    (rooms_are_known, {"looks/x.py": ""}, "has no __init__.py"),
    (rooms_look_back_only, {"genetics/x.py": "from ..looks import see"}, "genetics imports looks, a later room"),
    (rooms_look_back_only, {"genetics/x.py": "from .. import planner"}, "a later room"),
    (rooms_look_back_only, {"genetics/x.py": "import explorer.looks.seen as s"}, "a later room"),
    (rooms_look_back_only, {"looks/x.py": "def f():\n    from explorer.pairing import odds"}, "looks/x.py:2"),
    (rooms_look_back_only, {"looks/x.py": "import explorer"}, "from its top"),
    (rooms_look_back_only, {"looks/x.py": "from explorer import cross"}, "from its top"),
    (rooms_look_back_only, {"looks/deep/x.py": "from ... import cross"}, "from its top"),
    (rooms_look_back_only, {"panels/x.py": "from ..__main__ import main"}, "imports the launcher"),
    (rooms_look_back_only, {"looks/x.py": "import importlib"}, "by a string"),
    (rooms_look_back_only, {"looks/x.py": "from importlib import import_module"}, "by a string"),
    (rooms_look_back_only, {"looks/x.py": "__import__('explorer.panels')"}, "by a string"),
    (door_loads_screens_late, {"__init__.py": "from .panels.frame import show"}, "at import time"),
    (door_loads_screens_late, {"__init__.py": "from . import pictures"}, "at import time"),
    (no_import_cycles, {"looks/a.py": "from . import b", "looks/b.py": "from .a import f"}, " needs "),
    (no_import_cycles, {"looks/__init__.py": "from .a import f", "looks/a.py": "from ..looks import g"}, " needs "),
    (libraries_are_at_home, {"looks/x.py": "import networkx as nx"}, "whose home is planner/"),
    (libraries_are_at_home, {"panels/x.py": "import plotly.graph_objects as go"}, "whose home is pictures/"),
    (libraries_are_at_home, {"pictures/x.py": "from ipywidgets import HTML"}, "whose home is panels/"),
    (libraries_are_at_home, {"pairing/x.py": "from scipy.optimize import milp"}, "whose home is planner/"),
    (libraries_are_at_home, {"panels/x.py": "import subprocess"}, "whose home is __main__.py"),
    (libraries_are_at_home, {"panels/x.py": "from urllib.request import urlopen"}, "whose home is __main__.py"),
    (libraries_are_at_home, {"planner/a.py": "import networkx", "planner/b.py": "import networkx"}, "2 modules, not 1"),
    (files_have_one_door, {"panels/x.py": "open('my.csv')"}, "touches files (open)"),
    (files_have_one_door, {"panels/x.py": "import os\nos.replace('a', 'b')"}, "touches files (os.replace)"),
    (files_have_one_door, {"panels/x.py": "from os import replace"}, "touches files (os.replace)"),
    (files_have_one_door, {"panels/x.py": "import tempfile"}, "touches files (tempfile)"),
    (files_have_one_door, {"panels/x.py": "p.write_text('')"}, "touches files (write_text)"),
    (files_have_one_door, {"panels/x.py": "csv_path.open()"}, "touches files (open)"),
    (files_have_one_door, {"panels/x.py": "frame.to_csv('a.csv')"}, "touches files (to_csv)"),
    (files_have_one_door, {"catalogue/reading.py": "p.write_bytes(b'')"}, "touches files (write_bytes)"),
    (files_have_one_door, {"collection/a.py": "open('a')", "collection/b.py": "open('a')"}, "2 modules of collection/"),
    (clock_is_read_once, {"husbandry/x.py": "from datetime import date\ndate.today()"}, "datetime.date.today"),
    (clock_is_read_once, {"husbandry/x.py": "import datetime as dt\nf(dt.datetime.now)"}, "datetime.datetime.now"),
    (clock_is_read_once, {"husbandry/x.py": "from time import time"}, "time.time"),
    (clock_is_read_once, {"planner/x.py": "import numpy as np\nnp.random.default_rng()"}, "default_rng without a seed"),
    (clock_is_read_once, {"planner/x.py": "from random import Random\nRandom(None)"}, "Random without a seed"),
    (clock_is_read_once, {"planner/x.py": "import secrets"}, "secrets"),
    (
        clock_is_read_once,
        {f"panels/{name}.py": "from datetime import date\ndate.today()" for name in "ab"},
        "2 modules of panels/",
    ),
    (chance_has_a_seed, {"planner/x.py": "import random\nrandom.choice('ab')"}, "hidden seed"),
    (chance_has_a_seed, {"planner/x.py": "from random import shuffle"}, "hidden seed"),
    (chance_has_a_seed, {"planner/x.py": "import numpy as np\nnp.random.rand()"}, "hidden seed"),
    (modules_are_short, {"looks/x.py": "x = 1\n" * 301}, "more than 300"),
    (modules_are_short, {"looks/x.py": "x = 1\n" * 501}, "more than 500"),
    (modules_list_what_they_offer, {"looks/x.py": "x = 1"}, "has no literal __all__"),
    (modules_list_what_they_offer, {"looks/x.py": "__all__ = [*names]"}, "has no literal __all__"),
    (modules_list_what_they_offer, {"looks/x.py": "__all__ = ['see']"}, "lists see, which it does not define"),
    (modules_list_what_they_offer, {"looks/x.py": "__all__ = ['x', 'x']\nx = 1"}, "lists x twice"),
    (modules_list_what_they_offer, {"looks/x.py": "__all__ = ['_x']\n_x = 1"}, "a private name"),
    (names_say_something, {"looks/utils.py": ""}, "utils says nothing"),
    (names_say_something, {"looks/common/x.py": ""}, "common says nothing"),
    (names_say_something, {"looks/looks.py": ""}, "named after its room"),
    (models_have_no_screen, {"panels/path_tab/path_model.py": "x = f'<b>{y}'"}, "HTML in a model"),
    (models_have_no_screen, {"panels/path_tab/path_model.py": "import traitlets"}, "a model imports traitlets"),
)

# rule, sound modules that resemble broken ones
SOUND: tuple[tuple[Rule, dict[str, str]], ...] = (
    (rooms_are_known, {"__init__.py": "", "__main__.py": "", "looks/__init__.py": "", "looks/deep/x.py": ""}),
    (
        rooms_look_back_only,
        {"looks/x.py": "from ..genetics.genome import G\nfrom . import y\nimport explorer.catalogue"},
    ),
    (
        rooms_look_back_only,
        {"__init__.py": "from .pairing import cross", "catalogue/x.py": "import importlib.resources"},
    ),
    (door_loads_screens_late, {"__init__.py": "def show():\n    from .panels import frame"}),
    (door_loads_screens_late, {"__init__.py": "if TYPE_CHECKING:\n    from .panels import Frame"}),
    (no_import_cycles, {"looks/__init__.py": "from .a import f", "looks/a.py": "from .b import g", "looks/b.py": ""}),
    (no_import_cycles, {"looks/a.py": "from .b import f", "looks/b.py": "def f():\n    from .a import g"}),
    (libraries_are_at_home, {"planner/a.py": "import networkx", "panels/x.py": "import ipywidgets"}),
    (
        files_have_one_door,
        {"collection/files.py": "import os\nos.replace(a, b)\nopen('a')", "__main__.py": "open('a')"},
    ),
    (files_have_one_door, {"catalogue/reading.py": "(folder / 'a.toml').read_text()"}),
    (
        files_have_one_door,
        {"panels/x.py": "css = (Path(__file__).parent / 'a.css').read_text()\ntext.replace('a', 'b')"},
    ),
    (files_have_one_door, {"panels/x.py": "self.model.open(name)"}),
    (
        clock_is_read_once,
        {"panels/frame.py": "from datetime import date\ndate.today()", "__main__.py": "import secrets"},
    ),
    (
        clock_is_read_once,
        {"planner/x.py": "from random import Random\nfrom datetime import date\nRandom(7)\ndate(1, 1, 1)"},
    ),
    (chance_has_a_seed, {"planner/x.py": "import numpy as np\nfrom random import Random\nnp.random.default_rng(seed)"}),
    (chance_has_a_seed, {"planner/x.py": "def draw(random):\n    return random.choice('ab')"}),
    (modules_are_short, {"looks/x.py": "x = 1\n" * 300}),
    (
        modules_list_what_they_offer,
        {"looks/x.py": "__all__ = ['a', 'b', 'c']\nfrom .y import a\nb: int = 1\nclass c: ..."},
    ),
    (modules_list_what_they_offer, {"__init__.py": "__all__ = ['show']\ndef __getattr__(name): ..."}),
    (names_say_something, {"looks/seen.py": "", "pairing/__init__.py": ""}),
    (models_have_no_screen, {"panels/path_model.py": "x = 'a < b'", "panels/path_view.py": "x = '<b>'"}),
)


def written(files: Mapping[str, str]) -> list[Module]:
    return [Module(path, text) for path, text in files.items()]


@pytest.fixture(scope="module")
def package() -> list[Module]:
    paths = sorted(PACKAGE.rglob("*.py"))
    return [Module(path.relative_to(PACKAGE).as_posix(), path.read_text(encoding="utf-8")) for path in paths]


def test_package__is_found(package: list[Module]) -> None:
    assert {module.room for module in package} & set(ROOMS)
    assert {DOOR, LAUNCHER} <= {module.path for module in package}


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.__name__)
def test_package__keeps_the_rule(rule: Rule, package: list[Module]) -> None:
    assert rule(package) == []


@pytest.mark.parametrize(("rule", "files", "complaint"), BROKEN, ids=lambda value: getattr(value, "__name__", ""))
def test_rule__finds_the_fault(rule: Rule, files: dict[str, str], complaint: str) -> None:
    (found,) = rule(written(files))
    assert complaint in found


@pytest.mark.parametrize(("rule", "files"), SOUND, ids=lambda value: getattr(value, "__name__", ""))
def test_rule__lets_sound_modules_pass(rule: Rule, files: dict[str, str]) -> None:
    assert rule(written(files)) == []


def test_rules__all_have_broken_and_sound_examples() -> None:
    assert {rule for rule, _, _ in BROKEN} == set(RULES) == {rule for rule, _ in SOUND}


def test_long_modules__the_list_keeps_no_stale_names() -> None:
    files = {"looks/a.py": "x = 1\n" * 301, "looks/b.py": ""}
    reasons = {"looks/a.py": "one table", "looks/b.py": "was long", "looks/gone.py": "was long"}
    assert modules_are_short(written(files), reasons) == [
        "looks/b.py: listed as long, but is not",
        "looks/gone.py: listed as long, but is not",
    ]
