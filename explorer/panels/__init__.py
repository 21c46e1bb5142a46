"""What is clicked: for each panel a model without widgets, and a view that links widgets to it."""

from __future__ import annotations

import sys

# plotly reaches a library of grammars that takes a second or more to load, for a check that nothing here asks for.
sys.modules.setdefault("rfc3987_syntax", None)  # type: ignore[arg-type]

from .workbench import open_workbench  # noqa: E402

__all__ = ["open_workbench"]
