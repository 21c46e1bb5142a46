"""The rules of the house: functions from modules to complaints. The rules on effects stand in `house_effects.py`."""

import ast
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter

from house_effects import WIDGETS, chance_has_a_seed, clock_is_read_once, files_have_one_door, libraries_are_at_home
from house_source import DOOR, LAUNCHER, TOP, Module

__all__ = [
    "ROOMS",
    "RULES",
    "Rule",
    "door_loads_screens_late",
    "models_have_no_screen",
    "modules_are_short",
    "modules_list_what_they_offer",
    "names_say_something",
    "no_import_cycles",
    "rooms_are_known",
    "rooms_look_back_only",
]

ROOMS = (
    *("catalogue", "genetics", "notation", "looks", "collection"),
    *("husbandry", "pairing", "planner", "pictures", "panels"),
)

Rule = Callable[[Iterable[Module]], list[str]]

LONG, TOO_LONG = 300, 500
LONG_ON_PURPOSE: dict[str, str] = {}  # path -> why it is better whole

NAMES_THAT_SAY_NOTHING = {"base", "common", "core", "helper", "helpers", "misc", "util", "utils"}


def rooms_are_known(modules: Iterable[Module]) -> list[str]:
    """Every module is in a room of the list, every room is a package; only door and launcher stand outside."""
    modules = list(modules)
    paths = {module.path for module in modules}
    stray = [m.path for m in modules if m.room not in ROOMS and m.path not in (DOOR, LAUNCHER)]
    doorless = {m.room for m in modules if m.room in ROOMS and f"{m.room}/{DOOR}" not in paths}
    return [f"{path}: stands in no room" for path in stray] + [f"{room}/: has no {DOOR}" for room in sorted(doorless)]


def rooms_look_back_only(modules: Iterable[Module]) -> list[str]:
    """A room imports only rooms before it; nobody imports launcher or door from inside, or modules by a string."""
    found = []
    for module in modules:
        for node in ast.walk(module.tree):
            if isinstance(node, ast.Name) and node.id == "__import__":
                found.append(f"{module.path}:{node.lineno}: imports by a string; this test cannot follow it")
        for item in module.imports:
            parts = item.target.split(".")
            if parts[0] == "importlib" and parts[-1] in ("importlib", "import_module") and module.path != DOOR:
                found.append(f"{module.path}:{item.line}: imports by a string; this test cannot follow it")
            if parts[0] != TOP:
                continue
            other = parts[1] if len(parts) > 1 else ""
            if other == "__main__":
                found.append(f"{module.path}:{item.line}: imports the launcher")
            elif other not in ROOMS:
                found.append(f"{module.path}:{item.line}: imports the package from its top ({item.target})")
            elif module.room in ROOMS and ROOMS.index(other) > ROOMS.index(module.room):
                found.append(f"{module.path}:{item.line}: {module.room} imports {other}, a later room")
    return found


def door_loads_screens_late(modules: Iterable[Module]) -> list[str]:
    """The front door names the last two rooms only inside functions: importing it must not load plotly or widgets."""
    return [
        f"{module.path}:{item.line}: loads {item.target} at import time"
        for module in modules
        for item in module.imports
        if module.path == DOOR and item.at_import_time and item.target.split(".")[1:2] in (["panels"], ["pictures"])
    ]


def no_import_cycles(modules: Iterable[Module]) -> list[str]:
    """No module needs, while it is being imported, a module that needs it."""
    modules = list(modules)
    names = {module.name for module in modules}
    needs: dict[str, set[str]] = {}
    for module in modules:
        targets = (i.target for i in module.imports if i.at_import_time)
        found = {target if target in names else target.rpartition(".")[0] for target in targets}
        needs[module.name] = {name for name in found & names if name != module.name}
    try:
        TopologicalSorter(needs).prepare()
    except CycleError as error:
        return [" needs ".join(reversed(error.args[1]))]
    return []


def modules_are_short(modules: Iterable[Module], on_purpose: Mapping[str, str] = LONG_ON_PURPOSE) -> list[str]:
    """No module over 500 lines, none over 300 unless listed with a reason; the list holds no stale names."""
    lengths = {module.path: len(module.text.splitlines()) for module in modules}
    found = [f"{path}: {n} lines, more than {TOO_LONG}" for path, n in lengths.items() if n > TOO_LONG]
    found += [
        f"{path}: {n} lines, more than {LONG}; split it, or list it in LONG_ON_PURPOSE with the reason"
        for path, n in lengths.items()
        if LONG < n <= TOO_LONG and path not in on_purpose
    ]
    return found + [f"{path}: listed as long, but is not" for path in on_purpose if lengths.get(path, 0) <= LONG]


def modules_list_what_they_offer(modules: Iterable[Module]) -> list[str]:
    """Every module has a literal `__all__` of public names, each defined in it and none named twice."""
    found = []
    for module in modules:
        values = [
            node.value
            for node in module.tree.body
            if (isinstance(node, ast.Assign) and ast.unparse(node.targets[0]) == "__all__")
            or (isinstance(node, ast.AnnAssign) and ast.unparse(node.target) == "__all__")
        ]
        try:
            listed = ast.literal_eval(values[0]) if len(values) == 1 and values[0] else None
        except ValueError:
            listed = None
        if not isinstance(listed, list | tuple) or not all(isinstance(name, str) for name in listed):
            found.append(f"{module.path}: has no literal __all__")
            continue
        defined = set(_defined(module.tree.body))
        found += [f"{module.path}: lists {name} twice" for name in sorted(set(listed)) if listed.count(name) > 1]
        found += [f"{module.path}: lists {name}, a private name" for name in listed if name.startswith("_")]
        if "__getattr__" not in defined:
            found += [
                f"{module.path}: lists {name}, which it does not define" for name in listed if name not in defined
            ]
    return found


def _defined(body: Iterable[ast.stmt]) -> Iterator[str]:
    for node in body:
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield node.name
        elif isinstance(node, ast.Import | ast.ImportFrom):
            yield from (alias.asname or alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            yield from (name.id for target in targets for name in ast.walk(target) if isinstance(name, ast.Name))
        elif isinstance(node, ast.If) and "TYPE_CHECKING" not in ast.unparse(node.test):
            yield from _defined([*node.body, *node.orelse])
        elif isinstance(node, ast.Try):
            yield from _defined(node.body)


def names_say_something(modules: Iterable[Module]) -> list[str]:
    """No module or folder is a drawer (utils, common, ...), and no module is named after its room."""
    found = []
    for module in modules:
        parts = module.path.removesuffix(".py").split("/")
        found += [f"{module.path}: the name {part} says nothing" for part in parts if part in NAMES_THAT_SAY_NOTHING]
        if module.room and module.room in parts[1:]:
            found.append(f"{module.path}: is named after its room")
    return found


def models_have_no_screen(modules: Iterable[Module]) -> list[str]:
    """A panel's model holds no HTML and knows no widgets; both belong in its view."""
    found = []
    for module in modules:
        if module.room != "panels" or not module.path.endswith("_model.py"):
            continue
        found += [
            f"{module.path}:{node.lineno}: HTML in a model ({node.value.strip()[:40]!r})"
            for node in ast.walk(module.tree)
            if isinstance(node, ast.Constant) and isinstance(node.value, str) and re.search(r"</?[A-Za-z]", node.value)
        ]
        found += [
            f"{module.path}:{item.line}: a model imports {item.target}"
            for item in module.imports
            if any(item.of(library) for library in WIDGETS)
        ]
    return found


RULES: tuple[Rule, ...] = (
    *(rooms_are_known, rooms_look_back_only, door_loads_screens_late, no_import_cycles, libraries_are_at_home),
    *(files_have_one_door, clock_is_read_once, chance_has_a_seed, modules_are_short, modules_list_what_they_offer),
    *(names_say_something, models_have_no_screen),
)
