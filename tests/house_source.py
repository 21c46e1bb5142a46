"""The package's modules as text: their names, what they import and when, and what a dotted name in them stands for."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

__all__ = ["DOOR", "LAUNCHER", "TOP", "Import", "Module"]

TOP, DOOR, LAUNCHER = "explorer", "__init__.py", "__main__.py"


@dataclass(frozen=True)
class Import:
    target: str  # absolute dotted name of a module, or of a name in it: "explorer.genetics.genome", "explorer.cross"
    line: int
    at_import_time: bool  # false inside a function or under `if TYPE_CHECKING`

    def of(self, library: str) -> bool:
        return self.target == library or self.target.startswith(library + ".")


@dataclass(frozen=True)
class Module:
    path: str  # below explorer/, with forward slashes
    text: str

    @cached_property
    def tree(self) -> ast.Module:
        return ast.parse(self.text)

    @property
    def room(self) -> str:
        return self.path.split("/")[0] if "/" in self.path else ""

    @property
    def name(self) -> str:
        return ".".join([TOP, *self.path.removesuffix(".py").removesuffix("__init__").strip("/").split("/")]).strip(".")

    @property
    def package(self) -> str:
        return self.name if self.path.endswith(DOOR) else self.name.rpartition(".")[0]

    @cached_property
    def imports(self) -> list[Import]:
        return list(self._imports(self.tree, at_import_time=True))

    def _imports(self, node: ast.AST, *, at_import_time: bool) -> Iterator[Import]:
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.Import):
                for alias in child.names:
                    yield Import(alias.name, child.lineno, at_import_time)
            elif isinstance(child, ast.ImportFrom):
                for alias in child.names:
                    yield Import(f"{self._origin(child)}.{alias.name}", child.lineno, at_import_time)
            else:
                later = isinstance(child, ast.FunctionDef | ast.AsyncFunctionDef | ast.Lambda)
                later = later or (isinstance(child, ast.If) and "TYPE_CHECKING" in ast.unparse(child.test))
                yield from self._imports(child, at_import_time=at_import_time and not later)

    def _origin(self, node: ast.ImportFrom) -> str:
        """The absolute name of what stands after `from`."""
        if not node.level:
            return node.module or ""
        parts = self.package.split(".")
        return ".".join([*parts[: len(parts) - node.level + 1], *filter(None, [node.module])])

    @cached_property
    def known_as(self) -> dict[str, str]:
        """Local name -> the dotted name it was imported from."""
        names: dict[str, str] = {}
        for node in ast.walk(self.tree):
            if isinstance(node, ast.Import):
                for alias in node.names:
                    first = alias.name.split(".")[0]
                    names[alias.asname or first] = alias.name if alias.asname else first
            elif isinstance(node, ast.ImportFrom):
                for alias in node.names:
                    names[alias.asname or alias.name] = f"{self._origin(node)}.{alias.name}"
        return names

    def dotted(self, node: ast.AST) -> str:
        """`np.random.default_rng` -> "numpy.random.default_rng"; "" for what does not start at an imported name."""
        if isinstance(node, ast.Name):
            return self.known_as.get(node.id, "")
        if isinstance(node, ast.Attribute):
            return f"{start}.{node.attr}" if (start := self.dotted(node.value)) else ""
        return ""
