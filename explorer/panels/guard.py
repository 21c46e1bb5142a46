"""Keeps an error in one panel inside that panel."""

from __future__ import annotations

import traceback
from collections.abc import Callable
from typing import Any

from ipywidgets import HTML

from .markup import folded, paragraph

__all__ = ["Guard"]


class Guard:
    """Says in `message` that something of a panel failed, with the details folded; empty while all is well."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.message = HTML()
        self.message.add_class("xp-failure")
        self.message.layout.display = "none"

    def __call__(self, action: Callable[..., object]) -> Callable[..., None]:
        """The action, as a callback of a widget: it never raises."""

        def guarded(*arguments: Any, **options: Any) -> None:
            try:
                action(*arguments, **options)
            except Exception:
                self.report(traceback.format_exc())
            else:
                self.report("")

        return guarded

    def report(self, details: str) -> None:
        """Shows the failure; "" takes it away."""
        self.message.layout.display = "" if details else "none"
        said = f"{self.name}: this could not be shown. The other tabs still work; your file is as it was."
        self.message.value = paragraph(said) + folded("details", details) if details else ""
