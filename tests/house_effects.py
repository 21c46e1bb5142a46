"""Rules on effects: each library, file access, clock and source of chance has one home in the package."""

import ast
import re
from collections.abc import Iterable, Iterator

from house_source import LAUNCHER, Module

__all__ = ["WIDGETS", "chance_has_a_seed", "clock_is_read_once", "files_have_one_door", "libraries_are_at_home"]

WIDGETS = ("ipywidgets", "anywidget", "traitlets", "IPython")

# library -> (where it may be imported, in how many modules at most; None: any number)
HOMES: dict[str, tuple[str, int | None]] = {
    **dict.fromkeys(WIDGETS, ("panels/", None)),
    "plotly": ("pictures/", None),
    "networkx": ("planner/", 1),
    "scipy": ("planner/", 1),
    "joblib": ("planner/", 1),
    **dict.fromkeys(("subprocess", "signal", "webbrowser", "multiprocessing", "concurrent"), (LAUNCHER, 1)),
    **dict.fromkeys(("socket", "urllib", "http", "requests", "ssl"), (LAUNCHER, 1)),
}

FILE_LIBRARIES = ("shutil", "tempfile", "io.open", "os.open", "os.replace", "os.rename", "os.remove", "os.unlink")
FILE_READS = ("open", "read_text", "read_bytes", "read_csv", "read_table", "read_excel")
FILE_WRITES = (
    *("write_text", "write_bytes", "unlink", "mkdir", "touch", "makedirs"),
    *("to_csv", "to_excel", "write_html", "write_image"),
)
BACKUPS = "collection/storage.py"
FACTS_READER = "catalogue/reading.py"

CLOCK_AND_ENTROPY = (
    *("datetime.date.today", "datetime.datetime.now", "datetime.datetime.today", "datetime.datetime.utcnow"),
    *("pandas.Timestamp.now", "pandas.Timestamp.today", "pandas.Timestamp.utcnow"),
    *("time.time", "time.time_ns", "time.localtime", "time.gmtime", "time.strftime", "time.ctime"),
    *("os.urandom", "os.getrandom", "uuid.uuid1", "uuid.uuid4", "random.SystemRandom", "secrets"),
)
SEEDED = (
    *("random.Random", "numpy.random.default_rng", "numpy.random.SeedSequence"),
    *("numpy.random.PCG64", "numpy.random.Philox"),
)
RANDOM_TYPES = ("numpy.random.Generator", "numpy.random.BitGenerator")


def libraries_are_at_home(modules: Iterable[Module]) -> list[str]:
    """Each listed library is imported at its home only, and in no more modules there than the list says."""
    found = []
    users: dict[str, set[str]] = {}
    for module in modules:
        for item in module.imports:
            library = item.target.split(".")[0]
            if library not in HOMES:
                continue
            if module.path.startswith(HOMES[library][0]):
                users.setdefault(library, set()).add(module.path)
            else:
                found.append(f"{module.path}:{item.line}: imports {library}, whose home is {HOMES[library][0]}")
    for library, paths in sorted(users.items()):
        if (most := HOMES[library][1]) is not None and len(paths) > most:
            found.append(f"{library} is imported in {len(paths)} modules, not {most}: {', '.join(sorted(paths))}")
    return found


def files_have_one_door(modules: Iterable[Module]) -> list[str]:
    """Files are touched in one module of collection/ and in the launcher; the catalogue's reader may read its facts."""
    found = []
    homes: set[str] = set()
    for module in modules:
        uses = list(_file_uses(module))
        if module.path == LAUNCHER or (module.path == FACTS_READER and all(name in FILE_READS for name, _ in uses)):
            continue
        if uses and module.room == "collection":
            homes.add(module.path)
            continue
        found += [f"{module.path}:{line}: touches files ({name})" for name, line in uses]
    if len(homes) > 1:
        found.append(f"files are touched in {len(homes)} modules of collection/, not one: {', '.join(sorted(homes))}")
    return found


def _file_uses(module: Module) -> Iterator[tuple[str, int]]:
    for item in module.imports:
        for library in FILE_LIBRARIES:
            if item.of(library):
                yield library, item.line
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Attribute) and module.dotted(node) in FILE_LIBRARIES:
            yield module.dotted(node), node.lineno
        if not isinstance(node, ast.Call):
            continue
        if isinstance(node.func, ast.Name) and node.func.id == "open" and "open" not in module.known_as:
            yield "open", node.lineno
        if not isinstance(node.func, ast.Attribute):
            continue
        name, owner = node.func.attr, ast.unparse(node.func.value)
        if name in FILE_READS and re.search(r"\b__file__\b|\bfiles\(", owner):
            continue  # data of the package itself
        if name == "open" and not re.search(r"path|file|folder", owner, re.IGNORECASE):
            continue  # some other thing that opens
        if name in FILE_READS or name in FILE_WRITES:
            yield name, node.lineno


def clock_is_read_once(modules: Iterable[Module]) -> list[str]:
    """Today's date and entropy come in through one module of panels/; elsewhere they are arguments.

    The module that saves files reads the clock for one thing, the name of the backup.
    """
    found = []
    homes: set[str] = set()
    for module in modules:
        uses = list(_clock_uses(module))
        if module.path in (LAUNCHER, BACKUPS):
            continue
        if uses and module.room == "panels":
            homes.add(module.path)
            continue
        found += [f"{module.path}:{line}: reads the clock or entropy ({name})" for name, line in uses]
    if len(homes) > 1:
        found.append(f"clock or entropy in {len(homes)} modules of panels/, not one: {', '.join(sorted(homes))}")
    return found


def _clock_uses(module: Module) -> Iterator[tuple[str, int]]:
    for item in module.imports:
        if any(item.of(name) for name in CLOCK_AND_ENTROPY):
            yield item.target, item.line
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Attribute) and module.dotted(node) in CLOCK_AND_ENTROPY:
            yield module.dotted(node), node.lineno
        if isinstance(node, ast.Call) and module.dotted(node.func) in SEEDED and not _has_seed(node):
            yield f"{module.dotted(node.func)} without a seed", node.lineno


def _has_seed(call: ast.Call) -> bool:
    given = [*call.args, *(keyword.value for keyword in call.keywords)]
    return any(not (isinstance(value, ast.Constant) and value.value is None) for value in given)


def chance_has_a_seed(modules: Iterable[Module]) -> list[str]:
    """Random numbers come from a generator made with a seed, never from a library's hidden one."""
    allowed = (*SEEDED, *RANDOM_TYPES, "random.SystemRandom")
    found = []
    for module in modules:
        names = [(item.target, item.line) for item in module.imports]
        names += [(module.dotted(n), n.lineno) for n in ast.walk(module.tree) if isinstance(n, ast.Attribute)]
        found += [
            f"{module.path}:{line}: {name} draws from a hidden seed"
            for name, line in names
            if re.match(r"(numpy\.)?random\.", name) and not f"{name}.".startswith(tuple(f"{a}." for a in allowed))
        ]
    return found
